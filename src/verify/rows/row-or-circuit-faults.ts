import type { Fault } from '../../circuit/fault.js';

/** The fault of a body that describes its car twice or not at all. */
export function rowOrCircuitFaults(body: Readonly<Record<string, unknown>>): Fault[] {
  const [row, circuit] = [body['row'], body['circuit']];
  if ((row === undefined) !== (circuit === undefined)) return [];
  const detail =
    row === undefined
      ? 'No car is described: `circuit` and `row` are both missing.'
      : 'A car is described by `circuit` or by `row`, not by both.';
  return [{ pointer: row === undefined ? '#/circuit' : '#/row', code: 'row-or-circuit', detail }];
}
