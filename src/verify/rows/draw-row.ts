import { arrangementById } from './arrangements.js';
import type { DraftElement } from './draft.js';
import { drawContainers } from './draw-containers.js';
import { drawVehicle, nodesAt } from './draw-vehicle.js';
import { fillFields } from './fill-fields.js';
import { requireCells, type Requirements } from './require-cells.js';
import type { RowCells } from './row-cells.js';
import { type Wires, wiresOf } from './wires.js';

export interface Drawing {
  /** In order of id. */
  readonly elements: readonly DraftElement[];
  /** The rest of the circuit in wire form. */
  readonly rest: Readonly<Record<string, unknown>>;
}

/** Draws the circuit that a row stands for; undefined where `cells.faults` says why it cannot. */
export function drawRow(cells: RowCells, requirements: Requirements): Drawing | undefined {
  const arrangement = arrangementById(cells.text('arrangement'));
  requireCells(cells, arrangement, requirements);
  if (arrangement === undefined) return undefined;
  const count = arrangement.severalContainers ? (cells.number('container_count') ?? 2) : 1;
  const wires = wiresOf(arrangement, count, cells.text('disconnect_place'));
  const elements = [...drawContainers(cells, arrangement, wires), ...drawVehicle(cells, wires)].sort((a, b) =>
    String(a.fields['id']) < String(b.fields['id']) ? -1 : 1,
  );
  const rest = drawRest(cells, wires, elements);
  fillFields(cells, elements, rest);
  return cells.faults.length > 0 ? undefined : { elements, rest };
}

function drawRest(cells: RowCells, wires: Wires, elements: readonly DraftElement[]): Record<string, unknown> {
  const rest: Record<string, unknown> = { link: [...wires.behind] };
  const title = cells.text('car');
  if (title !== undefined) rest['title'] = title;
  if (elements.some(({ part }) => part === 'point-resistor'))
    rest['measuringPoints'] = { positive: 'mp', negative: 'mn' };
  const precharge: Record<string, unknown> = {};
  const [first, last] = [wires.containers[0], wires.containers.at(-1)];
  if (cells.has('precharge_accumulator_sense')) {
    precharge['accumulatorSense'] = [`f${first?.suffix ?? ''}`, `bn${last?.suffix ?? ''}`];
  }
  const linkSense = cells.text('precharge_link_sense');
  if (linkSense !== undefined) precharge['linkSense'] = [...nodesAt(linkSense, wires)];
  if (Object.keys(precharge).length > 0) rest['control'] = { precharge };

  const indicator = drawIndicator(cells, wires, elements);
  if (Object.keys(indicator).length > 0) rest['indicator'] = indicator;
  const contained = cells.yes('container_indicator');
  if (contained === true) {
    const [first, ...others] = wires.containers.map(({ suffix }) => ({ senses: [`tp${suffix}`, `tn${suffix}`] }));
    rest['containerIndicator'] = first;
    if (others.length > 0) rest['containerIndicators'] = others;
  } else if (contained === false) rest['containerIndicators'] = [];
  return rest;
}

function drawIndicator(cells: RowCells, wires: Wires, elements: readonly DraftElement[]): Record<string, unknown> {
  const watched = cells.words('indicator_watches');
  const sensed = cells.words('indicator_senses');
  const ids = (part: DraftElement['part']) =>
    elements.filter((element) => element.part === part).map(({ fields }) => fields['id']);
  return {
    ...(watched === undefined
      ? {}
      : {
          watches: [
            ...(watched.includes('isolation-relays') ? ids('isolation-relay') : []),
            ...(watched.includes('precharge-relay') ? ids('precharge-relay') : []),
          ],
        }),
    ...(sensed === undefined ? {} : { senses: sensed.map((place) => [...nodesAt(place, wires)]) }),
  };
}
