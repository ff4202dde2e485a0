import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { limits } from '../../src/limits/index.js';
import { type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.app.close());
afterEach(() => vi.restoreAllMocks());

const LOADS = '/v1/limits/precharge-resistance-max-loads';
const text = async (url: string) => {
  const answer = await service.call(url);
  expect([answer.status, answer.headers['content-type']]).toEqual([200, 'text/plain; charset=utf-8']);
  return answer.text;
};

/** Each with its source; all digits that a cell gives. */
const known: ReadonlyArray<readonly [string, string, string]> = [
  // Voltage divider, textbook: 47 000/19 and 47 000/9, the values of common practice for a 47 kΩ meter.
  ['precharge-resistance-max-loads', 'loadResistance=47k&threshold=0.95', '2473.68421'],
  ['precharge-resistance-max-loads', 'loadResistance=47k&threshold=0.9', '5222.22222'],
  // 47 kΩ ∥ 100 kΩ = 31 972.789…; over 19.
  ['precharge-resistance-max-loads', 'loadResistance=47k,100k&threshold=0.95', '1682.77837'],
  ['precharge-resistance-max-setting', 'loadResistance=47k&threshold=0.96', '1958.33333'],
  ['precharge-load-resistance-min', 'prechargeResistance=1k&threshold=0.95', '19000'],
  ['precharge-load-resistance-min', 'prechargeResistance=1k&threshold=0.9', '9000'],
  // Charging, textbook: 1.4979 s to 95 % with 1 kΩ and 500 µF, so 1000 Ω for 500·ln 20 ms = 1.49786613… s.
  ['precharge-resistance-max-time', 'capacitance=500u&time=1.497866136776995&threshold=0.95', '1000'],
  ['link-capacitance-max-precharge', 'prechargeResistance=1k&time=1.497866136776995&threshold=0.95', '0.0005'],
  // Ohm’s law and Joule heating: 600 V into 1 kΩ are 0.6 A and 360 W.
  ['precharge-resistance-min-current', 'voltage=600&current=0.6', '1000'],
  ['precharge-power-rating-min', 'voltage=600&prechargeResistance=1k', '360'],
  // Discharging, textbook: 600 V to 60 V takes ln 10 time constants; 5 s over 2.302585 are 2.17147241 s.
  ['discharge-resistance-max-time', 'capacitance=1m&voltage=600&limitVoltage=60&time=5', '2171.47241'],
  ['link-capacitance-max-discharge', 'dischargeResistance=1k&voltage=600&limitVoltage=60&time=5', '0.00217147241'],
  // Half the voltage over each body-protection resistor: 6 W at 600 V and 15 kΩ.
  ['measuring-point-resistance', 'voltage=600&ratedPower=6', '15000'],
  // The step that is left at 90 %: 60 V over 0.2 Ω.
  ['second-contact-inrush-max', 'voltage=600&threshold=0.9&sourceResistance=0.2', '300'],
];

describe('a cell', () => {
  it.each(known)('%s?%s is %s and nothing else', async (name, query, expected) => {
    expect(await text(`/v1/limits/${name}?${query}&format=text`)).toBe(expected);
  });

  it('takes its form from Accept, and from format before it', async () => {
    const url = `${LOADS}?loadResistance=47k&threshold=0.95`;
    const headers = { accept: 'text/plain' };
    expect((await service.call({ url, headers })).text).toBe('2473.68421');
    expect((await service.call({ url: `${url}&format=json`, headers })).json.value).toBeCloseTo(47_000 / 19, 6);
    expect((await service.call({ url, headers: { accept: 'text/csv;q=0.9, application/json;q=0.1' } })).text).toBe(
      'value,unit,limit,bound,rule,loadResistance,threshold\r\n2473.68421,Ω,precharge-resistance-max-loads,max,precharge-reaches-threshold,47000,0.95\r\n',
    );
    expect((await service.call({ url, headers: { accept: '*/*' } })).json.unit).toBe('Ω');
  });

  it('as JSON says what it was made from', async () => {
    const { json } = await service.call(`${LOADS}?loadResistance=100+kohm&loadResistance=47k&threshold=95+%25`);
    expect(json).toMatchObject({
      name: 'precharge-resistance-max-loads',
      bound: 'max',
      rule: 'precharge-reaches-threshold',
      unit: 'Ω',
      inputs: { loadResistance: [47_000, 100_000], threshold: 0.95 },
    });
    expect(json.basis).toContain('47 kΩ ∥ 100 kΩ = 31.973 kΩ');
    expect(json.basis).toMatch(/: 1\.6828 kΩ\.$/);
    expect(json.sources.length).toBeGreaterThan(0);
  });

  it('divides by one plus the tolerance of a part that may not be larger', async () => {
    expect(await text(`${LOADS}?loadResistance=47k&threshold=0.95&tolerance=5+%25&format=text`)).toBe('2355.88972');
  });

  it('has n/a where there is no such bound', async () => {
    // Below the limit voltage from the start: every resistance is good enough.
    const url = '/v1/limits/discharge-resistance-max-time?capacitance=1m&voltage=50&limitVoltage=60&time=5';
    expect(await text(`${url}&format=text`)).toBe('n/a');
    expect((await service.call(`${url}&format=csv`)).text).toMatch(/\r\nn\/a,Ω,/);
    expect((await service.call(url)).json).toMatchObject({ value: null, note: expect.stringMatching(/\.$/) });
  });

  it('writes small and large numbers without an exponent', async () => {
    const small = '/v1/limits/link-capacitance-max-discharge?dischargeResistance=1G&voltage=600&limitVoltage=60&time=5';
    expect(await text(`${small}&format=text`)).toBe('0.00000000217147241');
    const large = '/v1/limits/precharge-load-resistance-min?prechargeResistance=1000000M&threshold=0.9999999999999';
    expect(await text(`${large}&format=text`)).toMatch(/^\d{22,}$/);
  });

  it('is the same however its quantities are spelt and ordered, the tag included', async () => {
    const answers = await Promise.all(
      [
        'loadResistance=47k,100k&threshold=0.95',
        'threshold=.95&loadResistance=100000&loadResistance=47%20k%CE%A9',
        'loadResistance=0.1M;47k0&threshold=95%25',
      ].map((query) => service.call(`${LOADS}?${query}`)),
    );
    for (const { text: body, headers } of answers) {
      expect([body, headers['etag']]).toEqual([answers[0]?.text, answers[0]?.headers['etag']]);
    }
  });
});

describe('a decimal comma', () => {
  const comma = '&decimal=comma&format=text';
  it('is written, and read in the query', async () => {
    expect(await text(`${LOADS}?loadResistance=47k&threshold=0.95${comma}`)).toBe('2473,68421');
    expect(await text(`${LOADS}?loadResistance=47k&threshold=0,95${comma}`)).toBe('2473,68421');
    expect(await text(`${LOADS}?loadResistance=47k,100k&threshold=0,95${comma}`)).toBe('1682,77837');
    expect(await text(`${LOADS}?loadResistance=47000,0;100000&threshold=0,95${comma}`)).toBe('1682,77837');
  });

  it('separates the cells of CSV by semicolons', async () => {
    const { text: csv } = await service.call(`${LOADS}?loadResistance=47k&threshold=0,95&decimal=comma&format=csv`);
    expect(csv.split('\r\n')[1]).toMatch(/^2473,68421;Ω;.*;47000;0,95$/);
  });

  it.each([
    ['loadResistance=47000,100000&threshold=0,95', 'loadResistance'],
    ['loadResistance=47.000&threshold=0,95', 'loadResistance'],
  ])('is not guessed in %s', async (query, parameter) => {
    const { status, json } = await service.call(`${LOADS}?${query}&decimal=comma`);
    expect([status, json.errors]).toEqual([400, [expect.objectContaining({ parameter, code: 'ambiguous-number' })]]);
  });

  it('is suggested to who uses one unasked', async () => {
    const { json } = await service.call(`${LOADS}?loadResistance=47k&threshold=0,95`);
    expect(json.errors[0]).toMatchObject({ parameter: 'threshold', code: 'decimal-comma' });
    expect(json.errors[0].accepted).toContain('decimal=comma');
  });
});

describe('a query with faults', () => {
  it('has all of them named', async () => {
    const { status, json } = await service.call(
      `${LOADS}?loadResistance=12+V&treshold=0.95&capacitance=1m&decimal=dot&format=xml&onError=shout`,
    );
    expect([status, json.code]).toEqual([400, 'invalid-query']);
    expect(json.errors.map(({ parameter, code }: Record<string, string>) => [parameter, code])).toEqual([
      ['format', 'unknown-format'],
      ['decimal', 'not-one-of'],
      ['onError', 'not-one-of'],
      ['capacitance', 'unknown-parameter'],
      ['treshold', 'unknown-parameter'],
      ['loadResistance', 'wrong-unit'],
      ['threshold', 'missing-parameter'],
    ]);
    expect(json.errors[4].detail).toContain('did you mean `threshold`?');
  });

  it.each([
    ['threshold=1.5&loadResistance=47k', 'threshold', 'out-of-bounds'],
    ['threshold=&loadResistance=47k', 'threshold', 'empty-quantity'],
    ['threshold=0.9&threshold=0.95&loadResistance=47k', 'threshold', 'repeated-item'],
    ['threshold=0.9&loadResistance=0', 'loadResistance', 'out-of-bounds'],
    ['threshold=0.9&loadResistance=47k,', 'loadResistance', 'empty-quantity'],
    ['threshold=0.9&loadResistance=47m', 'loadResistance', 'unit-missing'],
    ['threshold=0.9&loadResistance=47k&__proto__=1', '__proto__', 'unknown-parameter'],
  ])('%s is refused for %s: %s', async (query, parameter, code) => {
    const { status, json } = await service.call(`${LOADS}?${query}`);
    expect([status, json.errors]).toEqual([400, [expect.objectContaining({ parameter, code })]]);
  });

  it('has no format or media type that there is not', async () => {
    const url = `${LOADS}?loadResistance=47k&threshold=0.95`;
    expect((await service.call(`${url}&format=xml`)).json).toMatchObject({
      status: 400,
      errors: [{ parameter: 'format', code: 'unknown-format' }],
    });
    const twice = await service.call(`${url}&format=csv&format=text`);
    expect([twice.status, twice.json.errors]).toMatchObject([400, [{ parameter: 'format', code: 'unknown-format' }]]);
    expect((await service.call({ url, headers: { accept: 'image/png' } })).status).toBe(406);
  });

  it('has a limit that there is', async () => {
    const { status, json } = await service.call('/v1/limits/precharge-resistance-max-load?threshold=1');
    expect([status, json.code]).toEqual([404, 'not-found']);
    expect(json.detail).toContain('did you mean `precharge-resistance-max-loads`?');
  });

  it('is not longer than a spreadsheet’s longest address', async () => {
    const loads = Array.from({ length: 500 }, () => '47k').join(',');
    const url = `${LOADS}?threshold=0.95&loadResistance=${loads}`;
    const { json: capacities } = await service.call('/v1/capacities');
    const shorter = url.slice(0, capacities.cellAddressCharacters).replace(/,[^,]*$/, '');
    expect((await service.call(shorter)).status).toBe(200);
    expect((await service.call(url)).json).toMatchObject({ status: 414, code: 'uri-too-long' });
  });
});

describe('onError=text', () => {
  it.each([
    [`${LOADS}?loadResistance=47k`, /^ERROR: threshold: `threshold` is missing\.$/],
    [`${LOADS}?loadResistance=47k&threshold=2&volts=1`, /^ERROR: volts: .* threshold: .* out of bounds.*\.$/],
    [`${LOADS}?loadResistance=47k&threshold=0.9&format=xml`, /^ERROR: format: /],
    ['/v1/limits/nothing?threshold=1', /^ERROR: There is no limit `nothing`/],
    ['/v1/limit-tables?name=nothing', /^ERROR: name: /],
  ])('answers %s as 200 with a sentence, which is not kept', async (url, sentence) => {
    const answer = await service.call(`${url}&onError=text`);
    expect([answer.status, answer.headers['cache-control'], answer.headers['etag']]).toEqual([
      200,
      'no-store',
      undefined,
    ]);
    expect(answer.headers['content-type']).toBe('text/plain; charset=utf-8');
    expect(answer.text).toMatch(sentence);
    expect(answer.text).not.toContain('\n');
  });

  it('changes nothing where there is no fault', async () => {
    expect(await text(`${LOADS}?loadResistance=47k&threshold=0.95&format=text&onError=text`)).toBe('2473.68421');
  });

  it('is not an answer to who accepts no text, nor for a mistake of the service', async () => {
    const url = `${LOADS}?loadResistance=47k&threshold=0.95&onError=text`;
    expect((await service.call({ url, headers: { accept: 'image/png' } })).status).toBe(406);
    const limit = limits.find(({ meta }) => meta.name === 'precharge-resistance-max-loads')!;
    vi.spyOn(limit.fromScalars, 'compute').mockReturnValue(Number.NaN);
    expect((await service.call(url)).status).toBe(500);
  });
});

describe('an entity tag', () => {
  const url = `${LOADS}?loadResistance=47k&threshold=0.95`;

  it('is strong, differs with question and form, and lets the answer be kept for a day', async () => {
    const other = [`${url}&format=text`, `${url}&format=csv`, `${url}&format=text&decimal=comma`, `${url}&tolerance=0`];
    const answers = await Promise.all([url, ...other].map((one) => service.call(one)));
    for (const { headers } of answers) {
      expect(headers['etag']).toMatch(/^"[\w-]{20,}"$/);
      expect(headers['cache-control']).toBe('public, max-age=86400');
      expect(headers['vary']).toContain('Accept');
    }
    expect(new Set(answers.map(({ headers }) => headers['etag'])).size).toBe(answers.length);
  });

  it('answers 304 before anything is computed', async () => {
    const tag = String((await service.call(url)).headers['etag']);
    const limit = limits.find(({ meta }) => meta.name === 'precharge-resistance-max-loads')!;
    const compute = vi.spyOn(limit.fromScalars, 'compute');
    for (const method of ['GET', 'HEAD'] as const) {
      const again = await service.call({ method, url, headers: { 'if-none-match': `"x", W/${tag}` } });
      expect([again.status, again.text, again.headers['etag']]).toEqual([304, '', tag]);
    }
    expect(compute).not.toHaveBeenCalled();
    expect((await service.call({ url, headers: { 'if-none-match': '"x"' } })).status).toBe(200);
    expect(compute).toHaveBeenCalledOnce();
  });

  it('does not stand for a query with faults', async () => {
    const answer = await service.call({ url: `${LOADS}?threshold=2`, headers: { 'if-none-match': '*' } });
    expect([answer.status, answer.headers['etag']]).toEqual([400, undefined]);
  });

  it('comes with HEAD too', async () => {
    const head = await service.call({ method: 'HEAD', url });
    const get = await service.call(url);
    expect([head.status, head.text, head.headers['etag']]).toEqual([200, '', get.headers['etag']]);
  });
});

describe('the list of limits', () => {
  it('has every limit, and an example of each that is answered with a number', async () => {
    const { json } = await service.call('/v1/limits');
    expect(json.limits.map(({ name }: { name: string }) => name)).toEqual(limits.map(({ meta }) => meta.name));
    for (const { example, parameters } of json.limits) {
      expect(await text(example), example).toMatch(/^\d+(?:\.\d+)?$/);
      const query = parameters.map((one: Record<string, string>) => `${one['name']}=${one['example']}`);
      const all = `${example.split('?')[0]}?${query.join('&')}`;
      expect(all.length).toBeLessThan(2048);
      expect((await service.call(all)).status, all).toBe(200);
    }
  });

  it('says which parameters are needed: without any one of them there is no answer', async () => {
    const { json } = await service.call('/v1/limits');
    for (const { example, parameters } of json.limits) {
      for (const { name, required } of parameters) {
        if (!required) continue;
        const without = example.replace(new RegExp(`([?&])${name}=[^&]*&?`), '$1');
        const answer = await service.call(without);
        expect(answer.json.errors, without).toEqual([
          expect.objectContaining({ parameter: name, code: 'missing-parameter' }),
        ]);
      }
    }
  });

  it('leaves POST where it was', async () => {
    const { headers } = await service.call({ method: 'OPTIONS', url: '/v1/limits' });
    expect(headers['allow']).toBe('GET, HEAD, OPTIONS, POST');
  });
});
