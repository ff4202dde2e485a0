import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.app.close());

type Body = Record<string, any>;

/** Two equal accumulators in parallel, 300…420 V each: at different ends of their ranges only a resistance parts them. */
function twoPacks(changes: Body = {}): Body {
  const request = structuredClone(requestExamples['verifyCircuit']?.['smallCar']?.value) as Body;
  const { circuit } = request;
  const pack = circuit.elements.find(({ id }: Body) => id === 'pack');
  delete pack.resistance;
  circuit.elements.push({ ...pack, id: 'pack-b' });
  Object.assign(circuit, changes);
  return request;
}
const fields = (body: Body) =>
  ['pack', 'pack-b'].map(
    (id) => `#/circuit/elements/${body['circuit'].elements.findIndex((each: Body) => each.id === id)}/resistance`,
  );

const precharge = {
  method: 'voltage-comparison',
  threshold: 0.97,
  comparisonError: 0.005,
  reference: 'measured',
  accumulatorSense: ['fp', 'bn'],
  linkSense: ['lp', 'ln'],
  timeout: 5,
  attempts: 1,
};
/** What reads facts that a plain car leaves alone: the sensed places, the order as stated, the wheels. */
const cars: [string, Body][] = [
  ['as it is', {}],
  ['with sensed places', { control: { precharge } }],
  [
    'with an order of its own',
    {
      control: {
        precharge,
        sequence: [
          { at: 0, close: ['air-neg', 'precharge-relay'] },
          { after: 3, close: ['air-pos'] },
        ],
      },
    },
  ],
];

describe.each(cars)('two accumulators in parallel without resistance, %s', (_name, changes) => {
  const body = twoPacks(changes);

  it('leave findings undetermined, naming the resistances, in a verification', async () => {
    const { status, json } = await service.post('/v1/verify', body);
    expect(status).toBe(200);
    const open = json.findings.filter((one: Body) => one.missing?.includes(fields(body)[0]));
    expect(open.map(({ rule }: Body) => rule)).toEqual(
      expect.arrayContaining(['precharge-reaches-threshold', 'discharge-time', 'discharge-stays-with-car']),
    );
    for (const { status: judged, missing } of open) {
      expect(judged).toBe('undetermined');
      expect(missing).toEqual(expect.arrayContaining(fields(body)));
    }
    const time = json.findings.find(({ rule }: Body) => rule === 'discharge-time');
    expect(time.elements).toEqual(['pack', 'pack-b']);
    expect(time.message).toContain('resistance of pack, resistance of pack-b');
    expect(json.discharge.map(({ id }: Body) => id)).toEqual([
      'shutdown',
      'disconnect-open',
      'container-removed',
      'all-separated',
    ]);
    for (const state of json.discharge) {
      expect(state).toMatchObject({ required: true, satisfied: null, startVoltage: { reason: 'ideal-loop' } });
    }
  });

  it('leave limits open, and nothing of the stock unexplained', async () => {
    const { status, json } = await service.post('/v1/limits', { ...body, stock: [{ resistance: 1000, power: 50 }] });
    expect(status).toBe(200);
    const limit = json.limits.find(({ name }: Body) => name === 'discharge-resistance-max-time');
    expect(limit).toMatchObject({ value: null, nominal: null, satisfied: null, outcome: 'not-stated' });
    expect(limit.missing.toSorted()).toEqual(fields(body).toSorted());
  });

  it('are undetermined in findings, and read as a page too', async () => {
    expect((await service.post('/v1/findings', body)).status).toBe(200);
    const page = await service.call({
      method: 'POST',
      url: '/v1/verify?format=markdown',
      headers: { 'content-type': 'application/json' },
      payload: JSON.stringify(body),
    });
    expect(page.status).toBe(200);
    expect(page.text).not.toMatch(/NaN|undefined/);
  });

  it('cannot be run', async () => {
    const { ruleset: _, ...rest } = body;
    const { status, json } = await service.post('/v1/transients', rest);
    expect(status).toBe(422);
    const pointers = json.errors.map(({ pointer }: Body) => Number(pointer.split('/').at(-1)));
    expect(json.errors.map(({ code }: Body) => code)).toEqual(pointers.map(() => 'ideal-loop'));
    expect(pointers).toEqual(pointers.toSorted((a: number, b: number) => a - b));
  });
});
