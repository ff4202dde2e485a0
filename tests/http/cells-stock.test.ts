import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.app.close());

const { stock, ...judged } = requestExamples['computeLimits']?.['withStock']?.value as {
  stock: Record<string, unknown>[];
  circuit: object;
};

describe('a stock in POST /v1/limits', () => {
  it('is answered beside the limits, which stay as they are', async () => {
    const without = await service.post('/v1/limits', judged);
    const { status, json } = await service.post('/v1/limits', { ...judged, stock });
    expect(status).toBe(200);
    expect(json.limits).toEqual(without.json.limits);
    expect(without.json.stock).toBeUndefined();
    expect(json.provenance.inputDigest).not.toBe(without.json.provenance.inputDigest);
    const resistors = json.windows.filter((one: { quantity: string }) => one.quantity === 'resistance');
    const named = [...json.stock, ...json.stockNotes].map(({ element }) => element);
    expect([...new Set(named)].sort()).toEqual(resistors.map(({ element }: { element: string }) => element));
  });

  it('lies in the window for nominals where nothing is said of tolerances', async () => {
    const bare = [900, 1000, 1200, 1500, 1800, 2200, 2700].map((resistance) => ({ resistance, power: '2 kW' }));
    const { json } = await service.post('/v1/limits', { ...judged, stock: bare });
    expect(json.stock.length).toBeGreaterThan(5);
    for (const { element, resistance, parts, use } of json.stock) {
      const window = json.windows.find((one: { element: string }) => one.element === element);
      expect(resistance, `${element} ${use} ${parts}`).toBeLessThan(window.max ?? Infinity);
    }
  });

  it('is answered for each ruleset', async () => {
    const { ruleset: _ruleset, ...rest } = judged as { ruleset?: string; circuit: object };
    const { json } = await service.post('/v1/limits', {
      ...rest,
      rulesets: ['student-ev-2020', 'collegiate-ev-2024'],
      stock,
    });
    for (const report of json.reports) expect(Array.isArray(report.stock)).toBe(true);
    expect(json.reports).toHaveLength(2);
  });

  it.each([
    [[], '#/stock', 'wrong-length'],
    [{}, '#/stock', 'wrong-type'],
    [[{ resistance: '1k5' }], '#/stock/0/power', 'missing-field'],
    [[{ resistance: '12 V', power: 50 }], '#/stock/0/resistance', 'wrong-unit'],
    [[{ resistance: 0, power: 50 }], '#/stock/0/resistance', 'out-of-bounds'],
    [[{ resistance: 100, power: 50, count: 1.5 }], '#/stock/0/count', 'wrong-type'],
    [[{ resistance: 100, power: 50, price: 3 }], '#/stock/0/price', 'unknown-field'],
    [Array.from({ length: 51 }, () => ({ resistance: 100, power: 50 })), '#/stock', 'wrong-length'],
  ])('%j is refused', async (faulty, pointer, code) => {
    const { status, json } = await service.post('/v1/limits', { ...judged, stock: faulty });
    expect([status, json.errors]).toEqual([422, [expect.objectContaining({ pointer, code })]]);
  });

  it('is not a field of the calls that do not use it', async () => {
    const { json } = await service.post('/v1/findings', { ...judged, stock });
    expect(json.errors).toEqual([expect.objectContaining({ pointer: '#/stock', code: 'unknown-field' })]);
  });

  it('has its largest number published', async () => {
    expect((await service.call('/v1/capacities')).json.stockParts).toBe(50);
  });
});
