import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readRequest, transientsInput, TransientsRequestSchema } from '../../../src/verify/index.js';
import { expectedRunWork } from '../../../src/verify/work/expected-run-work.js';
import { SMALL_WORK } from '../../../src/verify/work/small-work.js';

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

  it('grows with each: capacitors, instants, steps', () => {
    expect(work(capacitors(4))).toBeGreaterThan(work(capacitors(2)));
    expect(work([], { samples: 1000 })).toBeGreaterThan(work([]));
    const steps = (count: number) => ({
      sequence: Array.from({ length: count }, (_, k) => ({ at: k, close: ['air-neg'] })),
    });
    expect(work([], steps(9))).toBeGreaterThan(work([], steps(3)));
  });
});
