import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { workCapacities } from '../../src/verify/work/work-capacities.js';
import { type Service, startService } from './service.js';

// A thread's answer would be the stub's, so whatever is refused here was refused before a thread had it.
const workerFile = new URL('./stub-worker.mjs', import.meta.url);

let service: Service;
beforeAll(async () => {
  service = await startService({ work: { threads: 1, workerFile } });
});
afterAll(() => service.app.close());

interface Body {
  readonly circuit: { readonly elements: readonly object[] };
  readonly ruleset: string;
}

const small = requestExamples['verifyCircuit']?.['smallCar']?.value as Body;
const { ruleset } = small;

/** The small car with loads of constant power among several capacitors: each acts on each, in every run. */
function costlyCircuit() {
  const cables = Array.from({ length: 10 }, (_, k) => [
    part('resistor', `cable-${k}`, [k === 0 ? 'lp' : `y${k - 1}`, `y${k}`], { resistance: 0.01 }),
    part('capacitor', `capacitor-${k}`, [`y${k}`, 'ln'], { capacitance: 2e-5 }),
  ]).flat();
  const pumps = Array.from({ length: 120 }, (_, k) =>
    part('load', `pump-${k}`, [`y${k % 10}`, 'ln'], { power: 5 + k }),
  );
  return { ...small.circuit, elements: [...small.circuit.elements, ...cables, ...pumps] };
}
const part = (kind: string, id: string, nodes: readonly string[], more: object) => ({
  kind,
  id,
  nodes,
  zone: 'vehicle',
  ...more,
});
const circuit = costlyCircuit();

describe('a request that is expected to be too much work', () => {
  it.each<[string, object, string]>([
    ['/v1/verify', { circuit, ruleset }, '#/circuit'],
    ['/v1/findings', { circuit, ruleset }, '#/circuit'],
    ['/v1/limits', { circuit, ruleset }, '#/circuit'],
    ['/v1/transients', { circuit, duration: 1, samples: 10 }, '#/circuit'],
    ['/v1/compare', { before: small.circuit, after: circuit, ruleset }, '#/after'],
    ['/v1/compare', { before: circuit, after: small.circuit, ruleset }, '#/before'],
  ])(
    'is refused at once by %s, with what is costly, how much it is and how much is allowed',
    async (url, body, pointer) => {
      const { status, json } = await service.post(url, body);
      expect(status).toBe(422);
      expect(json).toMatchObject({ code: 'too-costly', errors: [{ pointer, code: 'too-costly' }] });
      const [{ detail, accepted }] = json.errors;
      const [, about, most] = /about (\d+), .*allowed is (\d+)\./.exec(detail) ?? [];
      expect(Number(most)).toBe(workCapacities.expectedWork);
      expect(Number(about)).toBeGreaterThan(workCapacities.expectedWork);
      expect(accepted).toContain(most);
      expect(detail).toMatch(/`pump-0`, .* and 115 more/);
      expect(service.app.threads.running).toBe(false);
    },
  );

  it.each(['verdict', 'full'])('is refused in its place in a batch with detail=%s', async (detail) => {
    const here = await startService({ work: { threads: 0 } });
    const { status, json } = await here.post(`/v1/verify/batch?detail=${detail}`, [small, { circuit, ruleset }, small]);
    await here.app.close();
    expect(status).toBe(200);
    expect(json.results.map((one: { status: number }) => one.status)).toEqual([200, 422, 200]);
    expect(json.results[1].problem).toMatchObject({
      code: 'too-costly',
      errors: [{ pointer: '#/circuit', detail: expect.stringContaining('`pump-0`') }],
    });
  });

  it('names rulesets and sensitivities where they multiply it', async () => {
    const rulesets = ['student-ev-2020', 'student-ev-2026'];
    const { json } = await service.post('/v1/verify', { circuit, rulesets, sensitivities: true });
    expect(json.errors[0].detail).toMatch(/2 rulesets: ask for one.*Sensitivities take as much again/);
  });

  it('is told of its tolerances where they cost, and not in a run at nominal values', async () => {
    const ranged = {
      ...circuit,
      elements: circuit.elements.map((element) =>
        'power' in element ? { ...element, power: { nominal: element.power, tolerance: 0.01 } } : element,
      ),
    };
    const { json: judged } = await service.post('/v1/findings', { circuit: ranged, ruleset });
    expect(judged.errors[0].detail).toContain('state those of small influence with the tolerance 0');
    const { json: run } = await service.post('/v1/transients', { circuit: ranged, duration: 1, samples: 10 });
    expect(run.errors[0].detail).not.toContain('tolerance');
    expect(run.errors[0].detail).toContain('ask for fewer of both');
  });

  it('can be checked all the same, which computes nothing', async () => {
    expect((await service.post('/v1/circuits/check', { circuit })).status).toBe(200);
  });

  it('is bounded by what GET /v1/capacities publishes', async () => {
    const { json } = await service.call('/v1/capacities');
    expect(json).toMatchObject(workCapacities);
  });
});

describe('more capacitors than are searched', () => {
  const ladder = Array.from({ length: 13 }, (_, k) => [
    part('resistor', `cable-${k}`, ['lp', `y${k}`], { resistance: { nominal: 1, tolerance: 0 } }),
    part('capacitor', `capacitor-${k}`, [`y${k}`, 'ln'], { capacitance: { nominal: 1e-6, tolerance: 0 } }),
  ]).flat();
  const many = { ...small.circuit, elements: [...small.circuit.elements, ...ladder] };

  it('are refused by a comparison, be it in one revision', async () => {
    const { json } = await service.post('/v1/compare', { before: small.circuit, after: many, ruleset });
    expect(json).toMatchObject({ status: 422, code: 'too-costly', errors: [{ pointer: '#/after/elements' }] });
  });

  it('are refused in their place in a batch', async () => {
    const here = await startService({ work: { threads: 0 } });
    const { json } = await here.post('/v1/verify/batch', [{ circuit: many, ruleset }, small]);
    await here.app.close();
    expect(json.results.map((one: { status: number }) => one.status)).toEqual([422, 200]);
    expect(json.results[0].problem).toMatchObject({ code: 'too-costly', errors: [{ pointer: '#/circuit/elements' }] });
  });
});
