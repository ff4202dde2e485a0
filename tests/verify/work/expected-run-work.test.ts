import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readRequest, transientsInput, TransientsRequestSchema } from '../../../src/verify/index.js';
import { expectedRunWork } from '../../../src/verify/work/expected-run-work.js';
import { SMALL_WORK } from '../../../src/verify/work/small-work.js';
import { workCapacities } from '../../../src/verify/work/work-capacities.js';

type Fields = Record<string, unknown>;
const file = new URL('../../../openapi/examples/sound-permanent-discharge.json', import.meta.url);
const { circuit } = (JSON.parse(readFileSync(file, 'utf8')) as { request: { circuit: { elements: Fields[] } } })
  .request;

function work(added: readonly Fields[], more: Fields = {}): number {
  const body = {
    circuit: { ...circuit, elements: [...circuit.elements, ...added] },
    duration: 5,
    samples: 100,
    ...more,
  };
  const reading = readRequest(TransientsRequestSchema, body);
  if (!('request' in reading)) throw new Error(JSON.stringify(reading.faults));
  return expectedRunWork(transientsInput(reading.request));
}

const part = { zone: 'vehicle', nodes: ['lp', 'ln'] };
const capacitors = (count: number) =>
  Array.from({ length: count }, (_, k) => [
    { ...part, kind: 'resistor', id: `r${k}`, nodes: [k === 0 ? 'lp' : `y${k}`, `y${k + 1}`], resistance: 0.01 },
    { ...part, kind: 'capacitor', id: `c${k}`, nodes: [`y${k + 1}`, 'ln'], capacitance: 2e-5 },
  ]).flat();

describe('the expected work of one run', () => {
  it('is small for an ordinary car, sampled finely too', () => {
    expect(work([])).toBeLessThan(SMALL_WORK);
    expect(work([], { samples: 10_000 })).toBeLessThan(SMALL_WORK);
  });

  // What takes seconds as measured: see the figures beside the constants.
  it.each<[string, readonly Fields[], Fields]>([
    ['of many capacitors', capacitors(40), {}],
    [
      'with a load that starts and stops',
      [{ ...part, kind: 'load', id: 'l', current: 1, startsAbove: 300, stopsBelow: 299 }],
      {},
    ],
    [
      'of many temperatures',
      [],
      {
        samples: 10_000,
        probes: Array.from({ length: 20 }, (_, k) => ({ id: `t${k}`, temperature: 'precharge-resistor' })),
      },
    ],
  ])('is not small for one %s', (_name, added, more) => {
    expect(work(added, more)).toBeGreaterThan(SMALL_WORK);
  });

  // As measured on the machine of the bench: 3 s, 6 s, and more than 20 s for those above.
  const sleepers = (count: number) =>
    Array.from({ length: count }, (_, k) => ({ ...part, kind: 'load', id: `l${k}`, current: 3 + k, startsAbove: 200 }));
  const pump = { ...part, kind: 'load', id: 'pump', power: 10 };
  it.each<[string, readonly Fields[], 'above' | 'below']>([
    ['79 further capacitors', capacitors(79), 'below'],
    ['a load of constant power among 40', [...capacitors(40), pump], 'below'],
    ['a load of constant power among 79', [...capacitors(79), pump], 'above'],
    ['loads that start and stop among 79', [...capacitors(79), ...sleepers(4)], 'above'],
    ['loads that start and stop among 40', [...capacitors(40), ...sleepers(4)], 'below'],
  ])('is on the right side of what is allowed for %s', (_name, added, side) => {
    const share = work(added) / workCapacities.expectedWork;
    if (side === 'above') expect(share).toBeGreaterThan(1);
    else expect(share).toBeLessThan(1);
  });

  it('grows with each: capacitors, instants, steps', () => {
    expect(work(capacitors(4))).toBeGreaterThan(work(capacitors(2)));
    expect(work([], { samples: 1000 })).toBeGreaterThan(work([]));
    const steps = (count: number) => ({
      sequence: Array.from({ length: count }, (_, k) => ({ at: k, close: ['air-neg'] })),
    });
    expect(work([], steps(9))).toBeGreaterThan(work([], steps(3)));
  });
});
