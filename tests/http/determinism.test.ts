import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plainCircuit, readCircuit } from '../../src/circuit/index.js';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.app.close());

type Element = Record<string, any>;
interface Body {
  circuit: { elements: Element[]; [key: string]: unknown };
  ruleset: string;
}

/** Fully stated, so that its report holds no pointers, which follow the order of elements as they must. */
const sound = (): Body => {
  const file = new URL('../../openapi/examples/sound-rear-pack.json', import.meta.url);
  return (JSON.parse(readFileSync(file, 'utf8')) as { request: Body }).request;
};
const small = (): Body => structuredClone(requestExamples['verifyCircuit']?.['smallCar']?.value) as Body;

const verify = async (body: unknown): Promise<string> => {
  const answer = await service.post('/v1/verify', body);
  expect(answer.status).toBe(200);
  return answer.text;
};

/** Each quantity of the small car in other spellings of the same value. */
const spellings: readonly [string, string, readonly unknown[]][] = [
  ['meter', 'resistance', [47_000, '47 kΩ', '47kohm', '47k', '0.047 MΩ', '47000 Ω', '4.7e4 Ω']],
  ['pack', 'resistance', [0.12, '120 mΩ', '120L', '0.12 ohm']],
  ['link', 'nominal', [0.00047, '470 µF', '470 μF', '470 uF', '470u', '0.47 mF', '0.47m']],
  ['precharge-resistor', 'nominal', [1000, '1 kΩ', '1k', '1k0', '1000 R']],
  ['discharge-resistor', 'nominal', [2700, '2k7', '2.7 kΩ', '2.7k']],
  ['air-pos', 'releaseTime', [0.02, '20 ms', '0.02 s', '20000 µs']],
];

/** The small car with the spelling of each quantity picked by a number. */
function spelt(picks: readonly number[]): Body {
  const body = small();
  for (const [index, [id, field, forms]] of spellings.entries()) {
    const element = body.circuit.elements.find((one) => one['id'] === id)!;
    const form = forms[(picks[index] ?? 0) % forms.length];
    if (field === 'nominal') element[id === 'link' ? 'capacitance' : 'resistance'].nominal = form;
    else element[field] = form;
  }
  return body;
}

describe('the same circuit gives the same bytes', { timeout: 180_000 }, () => {
  it('however its quantities are spelt', async () => {
    const first = await verify(spelt([]));
    const picks = fc.array(fc.nat(100), { minLength: spellings.length, maxLength: spellings.length });
    await fc.assert(
      fc.asyncProperty(picks, async (chosen) => {
        expect(await verify(spelt(chosen))).toBe(first);
      }),
      { numRuns: 12 },
    );
  });

  it('whatever the order of its elements', async () => {
    const first = await verify(sound());
    expect(first).not.toContain('#/circuit/elements/');
    const elements = sound().circuit.elements;
    await fc.assert(
      fc.asyncProperty(fc.shuffledSubarray(elements, { minLength: elements.length }), async (shuffled) => {
        const body = sound();
        expect(await verify({ ...body, circuit: { ...body.circuit, elements: shuffled } })).toBe(first);
      }),
      { numRuns: 4 },
    );
  });

  it('whatever the order of its keys, and however often it is asked', async () => {
    const first = await verify(sound());
    const reversed = (value: unknown): unknown => {
      if (Array.isArray(value)) return value.map(reversed);
      if (typeof value !== 'object' || value === null) return value;
      return Object.fromEntries(
        Object.entries(value)
          .reverse()
          .map(([key, inner]) => [key, reversed(inner)]),
      );
    };
    expect(await verify(reversed(sound()))).toBe(first);
    expect(await verify(sound())).toBe(first);
  });

  it('in plain SI as `check` answers it', async () => {
    const first = JSON.parse(await verify(sound())) as { provenance: { inputDigest: string } };
    const reading = readCircuit(sound().circuit, '#/circuit');
    if (!('circuit' in reading)) throw new Error('the example has faults');
    expect(JSON.parse(await verify({ ...sound(), circuit: plainCircuit(reading.circuit) }))).toEqual(first);
  });
});

describe('another circuit or event', { timeout: 180_000 }, () => {
  it('has another digest', async () => {
    const digest = async (body: unknown) => JSON.parse(await verify(body)).provenance.inputDigest as string;
    const digests = [
      await digest(small()),
      await digest({ ...small(), ruleset: 'student-ev-2026' }),
      await digest({ ...small(), event: { meterResistance: 47_000 } }),
      await digest({ ...small(), event: { parameters: { threshold: 0.9 } } }),
      await digest({ ...small(), circuit: { ...small().circuit, operatingCurrent: 80 } }),
    ];
    expect(new Set(digests).size).toBe(digests.length);
  });
});
