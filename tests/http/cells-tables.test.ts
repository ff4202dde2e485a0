import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.app.close());

const TABLE = '/v1/limit-tables?name=precharge-resistance-max-loads&over=loadResistance&threshold=0.95';

describe('a table of limits', () => {
  // Each load over 19: the voltage divider at 95 %.
  it('has a row for each value, in their order', async () => {
    const { json } = await service.call(`${TABLE}&values=10k,47k,22k`);
    expect(json.rows.map(({ input }: { input: number }) => input)).toEqual([10_000, 47_000, 22_000]);
    for (const { input, value } of json.rows) expect(value).toBeCloseTo(input / 19, 6);
    expect(json).toMatchObject({ over: 'loadResistance', overUnit: 'Ω', unit: 'Ω', inputs: { threshold: 0.95 } });
  });

  it('is CSV with a heading, or one bare number a line', async () => {
    const csv = await service.call(`${TABLE}&values=10k,22k,47k&format=csv`);
    expect(csv.headers['content-type']).toBe('text/csv; charset=utf-8');
    expect(csv.text).toBe('loadResistance,value\r\n10000,526.315789\r\n22000,1157.89474\r\n47000,2473.68421\r\n');
    const text = await service.call(`${TABLE}&values=10k&values=47k&format=text`);
    expect(text.text).toBe('526.315789\n2473.68421');
  });

  it('reads and writes decimal commas, values separated by semicolons', async () => {
    const url = `/v1/limit-tables?name=precharge-load-resistance-min&prechargeResistance=1k&over=threshold`;
    const { text } = await service.call(`${url}&values=0,9;0,95&decimal=comma&format=csv`);
    expect(text).toBe('threshold;value\r\n0,9;9000\r\n0,95;19000\r\n');
  });

  it('agrees with its cells', async () => {
    const cell = '/v1/limits/discharge-resistance-max-time?capacitance=680u&limitVoltage=60&time=5&format=text';
    const voltages = [600, 500, 400, 300, 200, 120, 60, 50];
    const table = await service.call(
      `/v1/limit-tables?name=discharge-resistance-max-time&over=voltage&values=${voltages.join(',')}&capacitance=680u&limitVoltage=60&time=5&format=text`,
    );
    const cells = await Promise.all(
      voltages.map(async (volts) => (await service.call(`${cell}&voltage=${volts}`)).text),
    );
    expect(table.text.split('\n')).toEqual(cells);
    expect(cells.slice(-2)).toEqual(['n/a', 'n/a']);
  });

  it('says in the row why a row has no bound', async () => {
    const url = '/v1/limit-tables?name=link-capacitance-max-precharge&over=loadResistance&values=1k,47k';
    const { json } = await service.call(`${url}&prechargeResistance=1k&threshold=0.9&time=5`);
    expect(json.rows[0]).toEqual({
      input: 1000,
      value: null,
      outcome: 'no-value-helps',
      note: expect.stringMatching(/\.$/),
    });
    expect(Object.keys(json.rows[1])).toEqual(['input', 'value']);
  });

  it('has a strong tag, whatever the spelling, and 304', async () => {
    const first = await service.call(`${TABLE}&values=10k,22k`);
    const other = await service.call(`${TABLE.replace('0.95', '95+%25')}&values=10000,22+kohm`);
    expect(other.headers['etag']).toBe(first.headers['etag']);
    const again = await service.call({
      url: `${TABLE}&values=10k,22k`,
      headers: { 'if-none-match': String(first.headers['etag']) },
    });
    expect([again.status, again.text]).toEqual([304, '']);
    expect((await service.call(`${TABLE}&values=22k,10k`)).headers['etag']).not.toBe(first.headers['etag']);
  });
});

describe('a table’s query', () => {
  it.each([
    ['/v1/limit-tables', ['name', 'over', 'values'], 'missing-parameter'],
    ['/v1/limit-tables?name=nothing&over=threshold&values=1', ['name'], 'not-one-of'],
    [`${TABLE.replace('=loadResistance', '=capacitance')}&loadResistance=47k&values=1`, ['over'], 'not-one-of'],
    [`${TABLE}&loadResistance=47k&values=10k`, ['loadResistance'], 'repeated-item'],
    [`${TABLE.replace('&threshold=0.95', '')}&values=10k`, ['threshold'], 'missing-parameter'],
    [`${TABLE}&values=10k,,12+V`, ['values', 'values'], undefined],
    [`${TABLE}&values=${Array.from({ length: 251 }, () => '1k').join()}`, ['values'], 'wrong-length'],
    [`${TABLE}&values=1,2&decimal=comma`, ['values'], 'ambiguous-number'],
  ])('%s is refused for %j', async (url, parameters, code) => {
    const { status, json } = await service.call(url);
    expect([status, json.errors.map(({ parameter }: { parameter: string }) => parameter)]).toEqual([400, parameters]);
    if (code !== undefined) expect(json.errors[0].code).toBe(code);
  });

  it('has its largest number of values published', async () => {
    const { json } = await service.call('/v1/capacities');
    const values = Array.from({ length: json.limitTableValues }, () => '1k').join();
    expect((await service.call(`${TABLE}&values=${values}`)).json.rows).toHaveLength(json.limitTableValues);
  });

  it('may have faulty values stand in their own rows', async () => {
    const url = `${TABLE}&values=10k,oops,47k&onError=text`;
    const csv = await service.call(`${url}&format=csv`);
    expect(csv.status).toBe(200);
    expect(csv.text.split('\r\n')).toEqual([
      'loadResistance,value',
      '10000,526.315789',
      expect.stringMatching(/^n\/a,"?ERROR: .*oops/),
      '47000,2473.68421',
      '',
    ]);
    expect((await service.call(`${url}&format=text`)).text.split('\n')[1]).toMatch(/^ERROR: /);
    const { json } = await service.call(url);
    expect(json.rows[1]).toEqual({ input: null, value: null, error: expect.stringMatching(/\.$/) });
  });
});
