import type { Element, ResolvedCircuit, Step, Toleranced } from './model.js';
import type { CircuitInput } from './schema/circuit.js';
import type { ElementInput } from './schema/element.js';
import type { TolerancedInput } from './schema/quantity-schemas.js';
import { withoutUndefined } from './resolve/without-undefined.js';

/**
 * The circuit in wire form with plain SI numbers, not rounded: a bare quantity stays a number, a toleranced one becomes
 * `{min, nominal, max}`, and the defaults that the contract fixes are filled in. Read back it gives the same circuit but
 * for the pointers; so the link is left out where it was not stated, since reading takes the same one.
 */
export function plainCircuit(circuit: ResolvedCircuit): CircuitInput {
  const { title, elements, link, linkStated, measuringPoints, chassis, operatingCurrent, control, indicator } = circuit;
  const { containerIndicator, containerIndicators, ambientMax } = circuit;
  const { sequence, precharge } = control;
  return withoutUndefined({
    title,
    elements: elements.map(plainElement),
    link: linkStated && link !== undefined ? [...link] : undefined,
    measuringPoints: measuringPoints === undefined ? undefined : { ...measuringPoints },
    chassis,
    operatingCurrent,
    control:
      sequence === undefined && precharge === undefined
        ? undefined
        : withoutUndefined({
            sequence: sequence?.map(plainStep),
            precharge:
              precharge === undefined
                ? undefined
                : withoutUndefined({
                    ...precharge,
                    accumulatorSense: copyOf(precharge.accumulatorSense),
                    linkSense: copyOf(precharge.linkSense),
                  }),
          }),
    indicator:
      indicator === undefined
        ? undefined
        : withoutUndefined({ watches: copyOf(indicator.watches), senses: indicator.senses?.map((pair) => [...pair]) }),
    containerIndicator:
      containerIndicator === undefined ? undefined : withoutUndefined({ senses: copyOf(containerIndicator.senses) }),
    containerIndicators: containerIndicators?.map(({ senses }) => withoutUndefined({ senses: copyOf(senses) })),
    ambient: ambientMax === undefined ? undefined : { max: ambientMax },
  });
}

/** A step in wire form. */
export function plainStep(step: Step) {
  return { ...step, close: [...step.close], open: [...step.open] };
}

/** Every other field of an element is the same in both forms: numbers in SI and words. */
function plainElement(element: Element): ElementInput {
  const fields = Object.entries(element).filter(([key]) => key !== 'pointer');
  return Object.fromEntries(fields.map(([key, value]) => [key, plainField(value)])) as ElementInput;
}

function plainField(value: unknown): unknown {
  if (!isToleranced(value)) return value;
  const plain: TolerancedInput = value.toleranceStated
    ? { min: value.min, nominal: value.nominal, max: value.max }
    : value.nominal;
  return plain;
}

function isToleranced(value: unknown): value is Toleranced {
  return typeof value === 'object' && value !== null && 'toleranceStated' in value;
}

function copyOf(list: readonly string[] | undefined): string[] | undefined {
  return list === undefined ? undefined : [...list];
}
