import { describe, expect, test } from 'vitest';
import { directoryOf, readCircuit, readEvent, readSequence } from '../../src/circuit/index.js';
import { car } from './car.js';
import { faultsOf } from './faults-of.js';

function directory() {
  const reading = readCircuit(car(), '#/circuit');
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  return directoryOf(reading.circuit);
}

describe('readSequence', () => {
  test('gives steps in SI with defaults, ids of a list in order', () => {
    const steps = [
      { at: 0, close: ['pre', 'air-neg'] },
      { when: { linkRatio: '95 %' }, close: ['air-pos'] },
      { after: '100 ms', open: ['pre'], release: true },
    ];
    expect(readSequence(steps, '#/sequence', directory())).toEqual({
      sequence: [
        { at: 0, close: ['air-neg', 'pre'], open: [], release: false },
        { when: { linkRatio: 0.95, falling: false }, close: ['air-pos'], open: [], release: false },
        { after: 0.1, close: [], open: ['pre'], release: true },
      ],
    });
  });

  test('finds faults of form and of meaning together, in order of place', () => {
    const steps = [{ at: '1 V', close: ['air-nog'] }, { at: 2, open: ['c-link'] }, { at: 1, opne: [] }, null];
    expect(faultsOf(readSequence(steps, '#/sequence', directory()))).toEqual([
      ['#/sequence/0/at', 'wrong-unit'],
      ['#/sequence/0/close/0', 'unknown-element'],
      ['#/sequence/1/open/0', 'wrong-kind'],
      ['#/sequence/2/at', 'step-out-of-order'],
      ['#/sequence/2/opne', 'unknown-field'],
      ['#/sequence/3', 'wrong-type'],
    ]);
  });

  test('judges without a circuit what needs none', () => {
    const steps = [{ at: 2, close: ['x'], open: ['x'] }, { at: 1 }];
    expect(faultsOf(readSequence(steps, '#/sequence', undefined))).toEqual([
      ['#/sequence/0/open/0', 'opened-and-closed'],
      ['#/sequence/1/at', 'step-out-of-order'],
    ]);
  });

  test.each([
    [{}, 'wrong-type'],
    [Array.from({ length: 101 }, () => ({ at: 0 })), 'wrong-length'],
  ])('refuses what is no list of at most 100 steps', (input, code) => {
    expect(faultsOf(readSequence(input, '#/sequence', directory()))).toEqual([['#/sequence', code]]);
  });
});

describe('readEvent', () => {
  test('reads the meter in any form of a resistance, and keeps the parameters as they are', () => {
    expect(readEvent({ meterResistance: '47k', parameters: { threshold: 0.95 } }, '#/event')).toEqual({
      event: { meterResistance: 47_000, parameters: { threshold: 0.95 } },
    });
    expect(readEvent({}, '#/event')).toEqual({ event: { parameters: {} } });
  });

  test.each<[unknown, string, string]>([
    [null, '#/event', 'wrong-type'],
    [{ meterResistance: 0 }, '#/event/meterResistance', 'out-of-bounds'],
    [{ meterResistance: '47 F' }, '#/event/meterResistance', 'wrong-unit'],
    [{ meterRes: 1 }, '#/event/meterRes', 'unknown-field'],
    [{ parameters: [] }, '#/event/parameters', 'wrong-type'],
  ])('refuses %j', (input, pointer, code) => {
    expect(faultsOf(readEvent(input, '#/event'))).toEqual([[pointer, code]]);
  });
});
