import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exampleRows } from '../../src/verify/rows/example-rows.js';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService({ work: { threads: 0 } });
});
afterAll(() => service.app.close());

describe('GET /v1/rows', () => {
  it('lists the columns with units, words and when they are needed, and every arrangement with an example', async () => {
    const { json } = await service.call('/v1/rows');
    const column = (name: string) => json.columns.find((one: { name: string }) => one.name === name);
    expect(column('link_capacitance')).toMatchObject({ unit: 'F', required: 'always' });
    expect(column('precharge_threshold')).toMatchObject({ unit: '' });
    expect(column('discharge_rest').words).toEqual(['closed', 'open', 'no-contact']);
    expect(column('precharge_timeout').required).toBeUndefined();
    expect(json.arrangements.map((one: { id: string }) => one.id)).toEqual(
      exampleRows.map((one) => one['arrangement']),
    );
    for (const { description, example } of json.arrangements) {
      expect(description).toMatch(/\.$/);
      expect((await service.post('/v1/circuits', { row: example })).status).toBe(200);
    }
  });

  it('has a template that can be filled in and posted as it is', async () => {
    const template = await service.call('/v1/rows?format=csv');
    expect(template.headers['content-type']).toBe('text/csv; charset=utf-8');
    expect(template.headers['content-disposition']).toContain('rows.csv');
    const answer = await service.call({
      method: 'POST',
      url: '/v1/verify/batch?ruleset=student-ev-2020&format=ndjson',
      payload: template.text,
      headers: { 'content-type': 'text/csv' },
    });
    const { summary } = JSON.parse(answer.text.trimEnd().split('\n').at(-1) ?? '');
    expect(summary).toMatchObject({ count: exampleRows.length, errors: 0 });
  });

  it('is not sent again to who has it', async () => {
    const first = await service.call('/v1/rows?format=csv');
    const again = await service.call({
      url: '/v1/rows?format=csv',
      headers: { 'if-none-match': String(first.headers['etag']) },
    });
    expect([again.status, again.text]).toEqual([304, '']);
    const json = await service.call('/v1/rows');
    expect(json.headers['etag']).not.toBe(first.headers['etag']);
  });
});

describe('POST /v1/circuits', () => {
  it('answers the circuit of a row, which any call takes', async () => {
    const row = { ...exampleRows[0], team: 'Invented' };
    const { json } = await service.post('/v1/circuits', { row });
    expect(json.row).toMatchObject({
      arrangement: 'one-container-positive',
      car: 'Aldermoor 7',
      extra: { team: 'Invented' },
    });
    const { json: report } = await service.post('/v1/verify', { circuit: json.circuit, ruleset: 'student-ev-2020' });
    expect(report.verdict).toBe('no-violation-found');
    const { json: again } = await service.post('/v1/circuits', { circuit: json.circuit });
    expect(again.circuit).toEqual(json.circuit);
    expect(again.row).toBeUndefined();
  });

  it('answers a circuit as /v1/circuits/check does', async () => {
    const body = requestExamples['checkCircuit']?.['smallCar']?.value;
    const check = await service.post('/v1/circuits/check', body);
    expect((await service.post('/v1/circuits', body)).json).toEqual(check.json);
  });

  it.each<[string, unknown, [string, string][]]>([
    ['neither', {}, [['#/circuit', 'row-or-circuit']]],
    [
      'both',
      { row: exampleRows[0], circuit: {} },
      [
        ['#/circuit/elements', 'missing-field'],
        ['#/row', 'row-or-circuit'],
      ],
    ],
    ['no object', 7, [['#', 'wrong-type']]],
    ['a row that is a list', { row: [] }, [['#/row', 'wrong-type']]],
    ['an unknown field', { row: exampleRows[0], rows: [] }, [['#/rows', 'unknown-field']]],
    [
      'a cell of another kind',
      { row: { ...exampleRows[0], discharge_rest: ['open'] } },
      [['#/row/discharge_rest', 'wrong-type']],
    ],
    [
      'a bad event',
      { row: exampleRows[0], event: { meterResistance: '4 F' } },
      [['#/event/meterResistance', 'wrong-unit']],
    ],
  ])('%s is refused', async (_name, body, faults) => {
    const answer = await service.post('/v1/circuits', body);
    expect(answer.status).toBe(422);
    expect(answer.json.errors.map(({ pointer, code }: any) => [pointer, code])).toEqual(faults);
  });

  it('reads decimal commas where they are declared', async () => {
    const row = {
      ...exampleRows[0],
      discharge_resistance: '3,3 kΩ',
      discharge_thermal_resistance: '1,5 K/W',
      precharge_thermal_resistance: '1,5 K/W',
      measuring_point_thermal_resistance: '1,5 K/W',
      precharge_comparison_error: '0,5 %',
    };
    expect((await service.post('/v1/circuits?decimal=comma', { row })).status).toBe(200);
    expect((await service.post('/v1/circuits', { row })).status).toBe(422);
    expect((await service.post('/v1/circuits?decimal=dot', { row })).status).toBe(400);
    expect((await service.post('/v1/circuits?detail=full', { row })).status).toBe(400);
  });
});

describe('POST /v1/compare', () => {
  it('answers what changed', async () => {
    const body = requestExamples['compareCircuits']?.['otherResistor']?.value as Record<string, unknown>;
    const answer = await service.post('/v1/compare', body);
    expect(answer.status).toBe(200);
    expect(answer.json.parts).toMatchObject([{ id: 'precharge-resistor', change: 'changed' }]);
  });

  it('names the revision that a fault is in', async () => {
    const answer = await service.post('/v1/compare', { before: {}, after: {}, ruleset: 'student-ev-2020' });
    expect(answer.json.errors.map(({ pointer }: any) => pointer)).toEqual(['#/after/elements', '#/before/elements']);
  });
});
