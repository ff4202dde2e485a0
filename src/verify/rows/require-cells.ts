import type { Arrangement } from './arrangements.js';
import type { RowCells } from './row-cells.js';

const TO_DRAW = 'without it the circuit cannot be drawn, and a guess could hide a mistake.';

export interface Requirements {
  /** True where the event states the organiser's meter, so that the row need not. */
  readonly meterStated: boolean;
}

/** Adds a fault for every cell without which the circuit cannot be drawn, and for cells that contradict each other. */
export function requireCells(
  cells: RowCells,
  arrangement: Arrangement | undefined,
  { meterStated }: Requirements,
): void {
  for (const name of [
    'arrangement',
    'pack_voltage_max',
    'link_capacitance',
    'precharge_resistance',
    'precharge_relay_place',
    'precharge_resistor_place',
    'precharge_fused',
    'discharge_place',
    'disconnect_place',
  ]) {
    cells.require(name, TO_DRAW);
  }
  requireRange(cells);
  requireContainers(cells, arrangement);
  requireMeter(cells, meterStated);
  if (cells.text('discharge_place') !== 'none') {
    for (const name of ['discharge_resistance', 'discharge_rest', 'discharge_fused']) cells.require(name, TO_DRAW);
  }
  if (cells.has('measuring_point_resistance')) cells.require('measuring_point_place', TO_DRAW);
  requirePair(cells, 'precharge_overload_factor', 'precharge_overload_duration');
  requirePair(cells, 'discharge_overload_factor', 'discharge_overload_duration');
  requirePair(cells, 'measuring_point_overload_factor', 'measuring_point_overload_duration');
}

/** A range has three ends, or is not stated: then the highest voltage stands alone. */
function requireRange(cells: RowCells): void {
  const ends = ['pack_voltage_min', 'pack_voltage_nominal'];
  if (!ends.some((name) => cells.has(name))) return;
  for (const name of ends) cells.require(name, 'state all three voltages, or the highest alone.');
}

function requireContainers(cells: RowCells, arrangement: Arrangement | undefined): void {
  if (arrangement === undefined) return;
  const count = cells.number('container_count');
  if (arrangement.severalContainers) {
    cells.require('container_count', TO_DRAW);
    if (count === 1) cells.unsuitable('container_count', `${arrangement.id} has at least two containers.`);
    for (const name of ['discharge_place', 'meter_place']) {
      if (cells.text(name) !== 'container') continue;
      const detail = 'With several containers in series a part inside one of them cannot span the whole voltage.';
      cells.unsuitable(name, detail);
    }
  } else {
    if (count !== undefined && count > 1) {
      cells.unsuitable('container_count', `${arrangement.id} has one container.`);
    }
    if (cells.text('disconnect_place') === 'between-containers') {
      cells.unsuitable('disconnect_place', `${arrangement.id} has one container, so nothing lies between.`);
    }
  }
}

function requireMeter(cells: RowCells, meterStated: boolean): void {
  if (cells.text('meter_place') === 'none') return;
  if (!cells.has('meter_place')) {
    if (meterStated && !cells.has('meter_resistance')) return;
    cells.require('meter_place', 'a meter loads the rise; write `none` where the car has none.');
  }
  if (cells.has('meter_place')) cells.require('meter_resistance', TO_DRAW);
}

/** Two cells that mean nothing without each other. */
function requirePair(cells: RowCells, one: string, other: string): void {
  if (cells.has(one) !== cells.has(other))
    cells.require(cells.has(one) ? other : one, 'it belongs to the cell beside it.');
}
