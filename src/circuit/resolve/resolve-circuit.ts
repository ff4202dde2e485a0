import type { ResolvedCircuit } from '../model.js';
import { childPointer } from '../pointer.js';
import type { CircuitInput } from '../schema/circuit.js';
import { defaultLink } from './default-link.js';
import { nodePairOf } from './element-fields.js';
import { resolveControl } from './resolve-control.js';
import { resolveElement } from './resolve-element.js';
import { stated } from './stated.js';
import { withoutUndefined } from './without-undefined.js';

/** The circuit in SI, elements in order of id; `input` has been found without fault. */
export function resolveCircuit(input: CircuitInput, pointer: string): ResolvedCircuit {
  const place = childPointer(pointer, 'elements');
  const elements = input.elements
    .map((element, index) => resolveElement(element, childPointer(place, index)))
    .sort((a, b) => (a.id < b.id ? -1 : 1));
  const { measuringPoints, indicator, containerIndicator, containerIndicators } = input;
  return withoutUndefined({
    title: input.title,
    elements,
    nodes: [...new Set(elements.flatMap((element) => element.nodes))].sort(),
    link: input.link === undefined ? defaultLink(elements) : nodePairOf(input.link),
    linkStated: input.link !== undefined,
    measuringPoints:
      measuringPoints === undefined
        ? undefined
        : { positive: measuringPoints.positive, negative: measuringPoints.negative },
    chassis: input.chassis,
    operatingCurrent: stated(input.operatingCurrent, 'current'),
    control: resolveControl(input.control),
    indicator:
      indicator === undefined
        ? undefined
        : withoutUndefined({
            watches: indicator.watches === undefined ? undefined : [...indicator.watches].sort(),
            senses: indicator.senses?.map(nodePairOf),
          }),
    containerIndicator: containerIndicator === undefined ? undefined : sensing(containerIndicator),
    containerIndicators: containerIndicators?.map(sensing),
    ambientMax: stated(input.ambient?.max, 'temperature'),
    pointer,
  });
}

function sensing({ senses }: NonNullable<CircuitInput['containerIndicator']>) {
  return withoutUndefined({ senses: senses === undefined ? undefined : nodePairOf(senses) });
}
