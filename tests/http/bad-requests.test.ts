import { capacities } from '../../src/circuit/capacities.js';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { type Service, startService } from './service.js';

let service: Service;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.app.close());

type Body = { circuit: { elements: Record<string, unknown>[]; [key: string]: unknown }; [key: string]: unknown };

/** The example car with a change. */
function body(change: (body: Body) => void = () => {}, operation = 'verifyCircuit', name = 'smallCar'): Body {
  const copy = structuredClone(requestExamples[operation]?.[name]?.value) as Body;
  change(copy);
  return copy;
}
const indexOf = (one: Body, id: string) => one.circuit.elements.findIndex((element) => element['id'] === id);
const element = (one: Body, id: string) => one.circuit.elements[indexOf(one, id)]!;
const faults = (answer: { json: { errors: { pointer: string; code: string }[] } }) =>
  answer.json.errors.map(({ pointer, code }) => [pointer, code]);

describe('a body with faults', () => {
  it('has all of them named at once, in order of place', async () => {
    const answer = await service.post(
      '/v1/verify',
      body((one) => {
        Object.assign(element(one, 'meter'), { resistance: '47 kF' });
        Object.assign(element(one, 'link'), { esrr: 0.01 });
        Object.assign(element(one, 'hvd'), { id: 'meter' });
        one.circuit['measuringPoints'] = { positive: 'lp', negative: 'nowhere' };
        one['ruleset'] = 'student-ev-1999';
        one['evnt'] = {};
      }),
    );
    expect(answer.status).toBe(422);
    const at = (id: string) => indexOf(body(), id);
    expect(faults(answer)).toEqual([
      [`#/circuit/elements/${at('meter')}/id`, 'duplicate-id'],
      [`#/circuit/elements/${at('meter')}/resistance`, 'wrong-unit'],
      [`#/circuit/elements/${at('link')}/esrr`, 'unknown-field'],
      ['#/circuit/measuringPoints/negative', 'unknown-node'],
      ['#/evnt', 'unknown-field'],
      ['#/ruleset', 'unknown-ruleset'],
    ]);
    for (const { detail } of answer.json.errors) expect(detail).toMatch(/[.?]$/);
  });

  it.each<[string, (one: Body) => void, string, string]>([
    [
      'null for a value',
      (one) => void Object.assign(element(one, 'meter'), { resistance: null }),
      '/resistance',
      'wrong-type',
    ],
    [
      'true for a number',
      (one) => void Object.assign(element(one, 'meter'), { resistance: true }),
      '/resistance',
      'wrong-type',
    ],
    [
      'a number as text without a unit',
      (one) => void Object.assign(element(one, 'meter'), { resistance: '47000' }),
      '/resistance',
      'unit-missing',
    ],
    [
      'a misspelt key',
      (one) => void Object.assign(element(one, 'meter'), { resistence: 1 }),
      '/resistence',
      'unknown-field',
    ],
  ])('%s', async (_name, change, place, code) => {
    const answer = await service.post('/v1/verify', body(change));
    expect(faults(answer)).toEqual([[`#/circuit/elements/${indexOf(body(), 'meter')}${place}`, code]]);
  });

  it.each<[string, unknown, [string, string][]]>([
    ['no object', [], [['#', 'wrong-type']]],
    ['null', null, [['#', 'wrong-type']]],
    [
      'an empty object',
      {},
      [
        ['#/circuit', 'missing-field'],
        ['#/ruleset', 'missing-field'],
      ],
    ],
    ['no ruleset', body((one) => delete one['ruleset']), [['#/ruleset', 'missing-field']]],
    ['null for a ruleset', body((one) => void (one['ruleset'] = null)), [['#/ruleset', 'wrong-type']]],
    [
      'ruleset and rulesets',
      body((one) => void (one['rulesets'] = ['student-ev-2020'])),
      [['#/rulesets', 'ruleset-or-rulesets']],
    ],
    [
      'a ruleset twice',
      body((one) => {
        delete one['ruleset'];
        one['rulesets'] = ['student-ev-2020', 'student-ev-2020', 'x'];
      }),
      [
        ['#/rulesets/1', 'repeated-item'],
        ['#/rulesets/2', 'unknown-ruleset'],
      ],
    ],
    [
      'an empty list of rulesets',
      body((one) => {
        delete one['ruleset'];
        one['rulesets'] = [];
      }),
      [['#/rulesets', 'wrong-length']],
    ],
    [
      'event parameters that cannot be set',
      body((one) => void (one['event'] = { parameters: { treshold: 0.9, dischargeTime: -1 }, meterResistance: '0 Ω' })),
      [
        ['#/event/meterResistance', 'out-of-bounds'],
        ['#/event/parameters/dischargeTime', 'out-of-bounds'],
        ['#/event/parameters/treshold', 'unknown-field'],
      ],
    ],
  ])('%s', async (_name, sent, expected) => {
    const answer = await service.post('/v1/verify', sent);
    expect(answer.status).toBe(422);
    expect(faults(answer)).toEqual(expected);
  });

  it('lists the rulesets to one who named none, and the parameters to one who misspelt one', async () => {
    const none = await service.post(
      '/v1/verify',
      body((one) => delete one['ruleset']),
    );
    expect(none.json.errors[0].accepted).toContain('student-ev-2020');
    expect(none.json.errors[0].accepted).toContain('collegiate-ev-2024');
    const misspelt = await service.post(
      '/v1/verify',
      body((one) => void (one['event'] = { parameters: { treshold: 0.9 } })),
    );
    expect(misspelt.json.errors[0].detail).toContain('threshold');
    expect(misspelt.json.errors[0].accepted).toContain('maximumReleaseTime');
  });

  it('is refused alike by every call that takes a circuit', async () => {
    const wrong = body((one) => {
      delete one['ruleset'];
      Object.assign(element(one, 'meter'), { resistance: 'x' });
    });
    for (const url of ['/v1/verify', '/v1/findings', '/v1/limits', '/v1/transients', '/v1/circuits/check']) {
      const answer = await service.post(url, wrong);
      expect(answer.status).toBe(422);
      expect(faults(answer)[0]).toEqual([
        `#/circuit/elements/${indexOf(body(), 'meter')}/resistance`,
        'not-a-quantity',
      ]);
    }
  });
});

describe('a request for transients', () => {
  const rise = (change: (one: Body) => void) => body(change, 'computeTransients', 'rise');

  it.each<[string, (one: Body) => void, [string, string][]]>([
    [
      'probes that lead nowhere',
      (one) =>
        void (one['probes'] = [
          { id: 'a', voltage: ['lp', 'zz'] },
          { id: 'a', current: 'no-such' },
          { id: 'b', temperature: 'link' },
          { id: 'c' },
          { id: 'd', current: 'meter', power: 'meter' },
          { id: 'e', voltage: ['lp'] },
        ]),
      [
        ['#/probes/0/voltage/1', 'unknown-node'],
        ['#/probes/1/current', 'unknown-element'],
        ['#/probes/1/id', 'duplicate-id'],
        ['#/probes/2/temperature', 'wrong-kind'],
        ['#/probes/3', 'probe-value-count'],
        ['#/probes/4', 'probe-value-count'],
        ['#/probes/5/voltage', 'wrong-length'],
      ],
    ],
    ['times beside samples', (one) => void (one['times'] = [0, 1]), [['#/times', 'times-or-samples']]],
    [
      'times that fall, or are none',
      (one) => {
        delete one['duration'];
        delete one['samples'];
        one['times'] = [0, '10 ms', 0.005, -1, null];
      },
      [
        ['#/times/2', 'unordered-times'],
        ['#/times/3', 'out-of-bounds'],
        ['#/times/4', 'wrong-type'],
      ],
    ],
    ['one sample', (one) => void (one['samples'] = 1), [['#/samples', 'out-of-bounds']]],
    ['half a sample', (one) => void (one['samples'] = 2.5), [['#/samples', 'wrong-type']]],
    [
      'a sequence that moves what cannot move',
      (one) =>
        void (one['sequence'] = [
          { at: 0, close: ['link'] },
          { at: 1, after: 1 },
        ]),
      [
        ['#/sequence/0/close/0', 'wrong-kind'],
        ['#/sequence/1', 'step-time-count'],
      ],
    ],
    [
      'a ruleset, which it does not read',
      (one) => void (one['ruleset'] = 'student-ev-2020'),
      [['#/ruleset', 'unknown-field']],
    ],
  ])('%s', async (_name, change, expected) => {
    const answer = await service.post('/v1/transients', rise(change));
    expect(answer.status).toBe(422);
    expect(answer.json.code).toBe('invalid-request');
    expect(faults(answer)).toEqual(expected);
  });

  it.each<[string, (one: Body) => void, string, number]>([
    ['samples', (one) => void (one['samples'] = 10_001), '#/samples', 10_001],
    [
      'times',
      (one) => {
        delete one['duration'];
        delete one['samples'];
        one['times'] = Array.from({ length: 10_002 }, (_, index) => index);
      },
      '#/times',
      10_002,
    ],
    [
      'values',
      (one) => {
        one['samples'] = 10_000;
        one['probes'] = Array.from({ length: 50 }, (_, index) => ({ id: `p${index}`, voltage: ['lp', 'ln'] }));
      },
      '#/probes',
      500_000,
    ],
  ])(
    'with too many %s is too costly, with the count and the largest allowed',
    async (_name, change, pointer, count) => {
      const answer = await service.post('/v1/transients', rise(change));
      expect(answer.json).toMatchObject({ status: 422, code: 'too-costly', errors: [{ pointer, code: 'too-costly' }] });
      expect(answer.json.errors[0].detail).toContain(String(count));
      expect(answer.json.errors[0].accepted).toMatch(/\d+/);
    },
  );
});

describe('a circuit with very many states', () => {
  const ladder = (pairs: number, bank: number) =>
    body((one) => {
      for (let index = 0; index < pairs; index += 1) {
        const nodes = [`n${index}`, 'ln'];
        one.circuit.elements.push({
          id: `r${index}`,
          kind: 'resistor',
          nodes: ['lp', `n${index}`],
          zone: 'vehicle',
          resistance: 1,
        });
        for (let part = 0; part < bank; part += 1) {
          one.circuit.elements.push({
            id: `c${index}-${part}`,
            kind: 'capacitor',
            nodes,
            zone: 'vehicle',
            capacitance: '1u',
          });
        }
      }
    });

  it.each(['/v1/verify', '/v1/findings', '/v1/limits'])(
    'is too costly for %s, with the count and the largest allowed',
    async (url) => {
      const answer = await service.post(url, ladder(capacities.capacitorPairs, 2));
      expect(answer.json).toMatchObject({
        status: 422,
        code: 'too-costly',
        errors: [{ pointer: '#/circuit/elements', code: 'too-costly' }],
      });
      const { capacitorPairs: most } = capacities;
      expect(answer.json.errors[0].detail).toMatch(new RegExp(`between ${most + 1} pairs.* ${most}\\.`));
    },
  );

  it('can be checked all the same', async () => {
    expect(
      (await service.post('/v1/circuits/check', { circuit: ladder(capacities.capacitorPairs, 2).circuit })).status,
    ).toBe(200);
  });

  it('is not one for a bank of capacitors side by side', async () => {
    expect((await service.post('/v1/findings', ladder(1, 30))).status).toBe(200);
  });
});

describe('a body that is not what the call reads', () => {
  const send = (payload: string | Buffer, headers: Record<string, string> = { 'content-type': 'application/json' }) =>
    service.call({ method: 'POST', url: '/v1/verify', payload, headers });

  it.each<[string, string | Buffer, Record<string, string>, number, string]>([
    ['text', '{}', { 'content-type': 'text/plain' }, 415, 'unsupported-media-type'],
    ['a form', 'a=b', { 'content-type': 'application/x-www-form-urlencoded' }, 415, 'unsupported-media-type'],
    ['no media type', '{}', {}, 415, 'unsupported-media-type'],
    ['nonsense for a media type', '{}', { 'content-type': 'nonsense' }, 415, 'unsupported-media-type'],
    ['another charset', '{}', { 'content-type': 'application/json; charset=utf-16' }, 415, 'unsupported-media-type'],
    [
      'compressed',
      '{}',
      { 'content-type': 'application/json', 'content-encoding': 'gzip' },
      415,
      'unsupported-media-type',
    ],
    ['empty', '', { 'content-type': 'application/json' }, 400, 'empty-body'],
    ['missing', '', {}, 400, 'empty-body'],
    ['broken JSON', '{"circuit": }', { 'content-type': 'application/json' }, 400, 'malformed-json'],
    ['equal keys', '{"circuit": {}, "circuit": {}}', { 'content-type': 'application/json' }, 400, 'duplicate-key'],
    [
      'a key that attacks prototypes',
      '{"__proto__": {}}',
      { 'content-type': 'application/json' },
      400,
      'forbidden-key',
    ],
    ['too deep', '['.repeat(40), { 'content-type': 'application/json' }, 400, 'too-deep'],
    ['too large', `"${'x'.repeat(1_048_577)}"`, { 'content-type': 'application/json' }, 413, 'body-too-large'],
  ])('%s', async (_name, payload, headers, status, code) => {
    expect((await send(payload, headers)).json).toMatchObject({ status, code });
  });

  it('says which media type it reads', async () => {
    const answer = await send('{}', { 'content-type': 'text/plain' });
    expect(answer.json.accepted).toEqual(['application/json']);
    expect(answer.headers['accept-post']).toBe('application/json');
  });

  it('says where JSON broke', async () => {
    const answer = await send('{\n  "circuit": {\n    "elements": [1,,2]\n');
    expect(answer.json.detail).toContain('line 3, column 20');
  });

  it('is read in UTF-8 with the charset named or not, in any case', async () => {
    for (const type of ['application/json', 'application/json; charset=utf-8', 'Application/JSON;charset="UTF-8"']) {
      expect((await send('{}', { 'content-type': type })).status).toBe(422);
    }
  });
});

describe('an address or header that does not fit', () => {
  it.each<[string, Parameters<Service['call']>[0], number, string]>([
    ['an unknown address', '/v1/nothing', 404, 'not-found'],
    ['an unknown version', '/v2/verify', 404, 'not-found'],
    ['no file of the manual', '/docs/static/no-such.js', 404, 'not-found'],
    ['a path out of the manual', '/docs/static//', 404, 'not-found'],
    ['a null character for a file', '/docs/static/%00', 404, 'not-found'],
    ['a trailing slash', '/v1/rulesets/', 404, 'not-found'],
    ['the wrong method', { method: 'GET', url: '/v1/verify' }, 405, 'method-not-allowed'],
    [
      'the wrong method with a body of any kind',
      { method: 'PUT', url: '/v1/rulesets', payload: 'x' },
      405,
      'method-not-allowed',
    ],
    [
      'a body nobody will read at an unknown address',
      { method: 'POST', url: '/nothing', payload: 'x' },
      404,
      'not-found',
    ],
    ['broken percent-encoding', '/v1/rulesets/%zz', 400, 'bad-request'],
    ['an endless name', `/v1/rulesets/${'x'.repeat(300)}`, 414, 'uri-too-long'],
    ['an unknown query parameter', '/v1/rulesets?formt=json', 400, 'invalid-query'],
    [
      'media types that cannot be given',
      { url: '/v1/rulesets', headers: { accept: 'text/csv' } },
      406,
      'not-acceptable',
    ],
  ])('%s', async (_name, request, status, code) => {
    expect((await service.call(request)).json).toMatchObject({ status, code });
  });

  it('says where to look where nothing has the address', async () => {
    for (const url of ['/v1/nothing', '/docs/static/no-such.js', '/docs/static//']) {
      expect((await service.call(url)).json.detail).toMatch(/^Nothing has this address\. GET \/ .* GET \/docs /);
    }
    for (const url of ['/', '/docs/']) expect((await service.call(url)).status).toBe(200);
  });

  it('names each unknown query parameter', async () => {
    const { json } = await service.call({ method: 'POST', url: '/v1/verify?b=1&a=2', payload: '{}' });
    expect(json.errors.map((error: { parameter: string; code: string }) => [error.parameter, error.code])).toEqual([
      ['a', 'unknown-parameter'],
      ['b', 'unknown-parameter'],
    ]);
  });

  it('says which methods and media types there are', async () => {
    const method = await service.call({ method: 'DELETE', url: '/v1/verify' });
    expect(method.headers['allow']).toBe('OPTIONS, POST');
    const type = await service.call({ url: '/problems/not-found', headers: { accept: 'image/png' } });
    expect(type.json.accepted).toEqual(['application/json', 'text/html']);
  });

  it.each(['*/*', 'application/*', 'text/html, application/json;q=0.5', 'text/html,*/*;q=0.1'])(
    'Accept: %s can be given',
    async (accept) => {
      expect((await service.call({ url: '/v1/rulesets', headers: { accept } })).status).toBe(200);
    },
  );
});

describe('the form of a report', () => {
  const ask = (url: string, accept?: string) =>
    service.call({
      method: 'POST',
      url,
      headers: { 'content-type': 'application/json', ...(accept === undefined ? {} : { accept }) },
      payload: JSON.stringify(body()),
    });

  it.each<[string, string | undefined, RegExp]>([
    ['/v1/verify', undefined, /^application\/json/],
    ['/v1/verify', 'text/markdown', /^text\/markdown/],
    ['/v1/verify?format=markdown', undefined, /^text\/markdown/],
    ['/v1/verify?format=markdown', 'application/json', /^text\/markdown/],
    ['/v1/verify?format=json', 'text/csv', /^application\/json/],
  ])('%s with Accept: %s', async (url, accept, type) => {
    const answer = await ask(url, accept);
    expect([answer.status, answer.headers['content-type']]).toEqual([200, expect.stringMatching(type)]);
    expect(answer.text).toContain('it can kill');
  });

  it.each(['pdf', 'JSON', '', 'toString'])('refuses the format %j', async (format) => {
    const answer = await ask(`/v1/verify?format=${format}`);
    expect(answer.json).toMatchObject({ status: 400, code: 'invalid-query' });
    expect(answer.json.errors).toMatchObject([
      { parameter: 'format', code: 'unknown-format', accepted: 'json, markdown' },
    ]);
  });

  it('refuses two formats, and a format where there is no choice', async () => {
    expect((await ask('/v1/verify?format=json&format=json')).json.errors[0].code).toBe('unknown-format');
    expect((await ask('/v1/findings?format=json')).json.errors[0].code).toBe('unknown-parameter');
  });
});

describe('the request id', () => {
  it('is the caller’s own where it is harmless', async () => {
    const id = '0f8fad5b-d9cb-469f-a165-70867728950e';
    const answer = await service.call({ url: '/nothing', headers: { 'x-request-id': id } });
    expect(answer.headers['x-request-id']).toBe(id);
    expect(answer.json).toMatchObject({ requestId: id, instance: `urn:uuid:${id}` });
  });

  it('need not be a UUID', async () => {
    const answer = await service.call({ url: '/nothing', headers: { 'x-request-id': 'sheet-7.B4' } });
    expect(answer.json.requestId).toBe('sheet-7.B4');
    expect(answer.json.instance).toBeUndefined();
  });

  it.each(['', ' ', 'a b', '<script>', 'x'.repeat(200), 'a\u00e4', '"'])(
    '%j is replaced by a fresh one',
    async (id) => {
      const answer = await service.call({ url: '/healthz', headers: { 'x-request-id': id } });
      expect(answer.headers['x-request-id']).toMatch(/^[0-9a-f-]{36}$/);
    },
  );
});
