import { draft, type DraftElement, inside, VEHICLE } from './draft.js';
import type { RowCells } from './row-cells.js';
import type { Pair, Wires } from './wires.js';

/** Disconnect, link, meter, discharge circuit and measuring points. */
export function drawVehicle(cells: RowCells, wires: Wires): DraftElement[] {
  const { disconnect } = wires;
  return [
    ...(disconnect === undefined ? [] : [draft('disconnect', 'disconnect', 'hvd', disconnect, VEHICLE)]),
    ...drawLink(cells, wires),
    ...drawMeter(cells, wires),
    ...drawDischarge(cells, wires),
    ...drawPoints(cells, wires),
  ];
}

/** The nodes that a word for a place means; of a container its terminals. */
export function nodesAt(place: string, wires: Wires): Pair {
  if (place === 'ahead-of-disconnect') return wires.ahead;
  if (place === 'behind-disconnect') return wires.behind;
  return [`tp${wires.containers[0]?.suffix ?? ''}`, `tn${wires.containers.at(-1)?.suffix ?? ''}`];
}

function placeOf(word: string) {
  return word === 'container' ? inside('main') : VEHICLE;
}

function drawLink(cells: RowCells, wires: Wires): DraftElement[] {
  const count = cells.number('inverter_count') ?? 1;
  return Array.from({ length: count }, (_, index) =>
    draft(
      'link-capacitor',
      'capacitor',
      count === 1 ? 'link-capacitor' : `link-capacitor-${index + 1}`,
      wires.behind,
      VEHICLE,
    ),
  );
}

function drawMeter(cells: RowCells, wires: Wires): DraftElement[] {
  const place = cells.text('meter_place');
  if (place === undefined || place === 'none') return [];
  return [draft('meter', 'meter', 'energy-meter', nodesAt(place, wires), placeOf(place), { role: 'energy-meter' })];
}

function drawDischarge(cells: RowCells, wires: Wires): DraftElement[] {
  const place = cells.text('discharge_place');
  if (place === undefined || place === 'none') return [];
  const [positive, negative] = nodesAt(place, wires);
  const rest = cells.text('discharge_rest');
  const drawn: DraftElement[] = [];
  let at = positive;
  if (cells.yes('discharge_fused') === true) {
    drawn.push(draft('discharge-fuse', 'fuse', 'discharge-fuse', [at, 'df'], placeOf(place)));
    at = 'df';
  }
  if (rest !== 'no-contact') {
    const relay = { rest, role: 'discharge-relay' };
    drawn.push(draft('discharge-relay', 'contact', 'discharge-relay', [at, 'dr'], placeOf(place), relay));
    at = 'dr';
  }
  const resistor = { role: 'discharge' };
  drawn.push(draft('discharge-resistor', 'resistor', 'discharge-resistor', [at, negative], placeOf(place), resistor));
  return drawn;
}

function drawPoints(cells: RowCells, wires: Wires): DraftElement[] {
  const place = cells.text('measuring_point_place');
  if (place === undefined || !cells.has('measuring_point_resistance')) return [];
  const [positive, negative] = nodesAt(place, wires);
  const role = { role: 'body-protection' };
  return [
    draft('point-resistor', 'resistor', 'point-resistor-pos', [positive, 'mp'], VEHICLE, role),
    draft('point-resistor', 'resistor', 'point-resistor-neg', [negative, 'mn'], VEHICLE, role),
  ];
}
