import { describe, expect, test } from 'vitest';
import { conductsAt, elementById, readCircuit, restState } from '../../src/circuit/index.js';
import { car, part } from './car.js';

function circuit() {
  const input = car();
  part(input, 'air-pos')['openResistance'] = '10 MΩ';
  part(input, 'air-pos')['resistance'] = '1 mΩ';
  part(input, 'pack')['resistance'] = { min: 0.1, nominal: 0.2, max: 0.3 };
  input.elements.push(
    { id: 'fuse', kind: 'fuse', nodes: ['bp', 'f'], zone: 'container' },
    { id: 'plug', kind: 'connector', nodes: ['lp', 'p'], zone: 'vehicle' },
    { id: 'hvd', kind: 'disconnect', nodes: ['lp', 'h'], zone: 'vehicle', resistance: 0.001 },
    { id: 'meter', kind: 'meter', nodes: ['lp', 'ln'], zone: 'vehicle', resistance: '47k' },
    { id: 'motor', kind: 'machine', nodes: ['lp', 'ln'], zone: 'vehicle', backEmf: 100, resistance: 1 },
    { id: 'pump', kind: 'load', nodes: ['lp', 'ln'], zone: 'vehicle', current: 1 },
  );
  const reading = readCircuit(input, '#');
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  return reading.circuit;
}

const ohms = (id: string, ...[state, options]: Parameters<typeof conductsAt>) => {
  const element = elementById(circuit(), id);
  if (element === undefined) throw new Error(`no ${id}`);
  return conductsAt(state, options)(element);
};

describe('conductsAt', () => {
  test.each<[string, Parameters<typeof conductsAt>, number | undefined]>([
    ['pack', [{ open: [] }], undefined],
    ['pack', [{ open: [] }, { accumulators: true }], 0.2],
    ['pack', [{ open: [] }, { accumulators: true, at: 'min' }], 0.1],
    ['fuse', [{ open: [] }], 0],
    ['fuse', [{ open: [] }, { fuses: false }], undefined],
    ['air-pos', [{ open: [] }], 0.001],
    ['air-pos', [{ open: ['air-pos'] }], undefined],
    ['air-pos', [{ open: ['air-pos'] }, { leakage: true }], 1e7],
    ['air-neg', [{ open: ['air-neg'] }, { leakage: true }], undefined],
    ['air-neg', [{ open: ['air-pos'] }], 0],
    ['plug', [{ open: [] }], 0],
    ['plug', [{ open: ['plug'] }, { leakage: true }], undefined],
    ['hvd', [{ open: [] }], 0.001],
    ['hvd', [{ open: ['hvd'] }], undefined],
    ['r-pre', [{ open: [] }], 1000],
    ['r-pre', [{ open: [] }, { at: 'max' }], 1050],
    ['r-pre', [{ open: [] }, { gone: ['r-pre'] }], undefined],
    ['meter', [{ open: [] }], 47_000],
    ['meter', [{ open: [] }, { meters: false }], undefined],
    ['inverter', [{ open: [] }], undefined],
    ['inverter', [{ open: [] }, { loads: true }], 200_000],
    ['pump', [{ open: [] }, { loads: true }], undefined],
    ['c-link', [{ open: [] }, { loads: true, accumulators: true, leakage: true }], undefined],
    ['motor', [{ open: [] }, { loads: true, accumulators: true, leakage: true }], undefined],
  ])('%s with %j: %s', (id, args, expected) => {
    expect(ohms(id, ...args)).toBe(expected);
  });
});

test('restState opens the contacts that are open at rest, and nothing else', () => {
  expect(restState(circuit())).toEqual({ open: ['air-neg', 'air-pos', 'pre'] });
});
