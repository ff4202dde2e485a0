import { describe, expect, it } from 'vitest';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { readInstants } from '../../src/verify/read-instants.js';
import { type Request, readRequest } from '../../src/verify/read-request.js';
import { readRulesets } from '../../src/verify/read-rulesets.js';
import { CheckRequestSchema, JudgeRequestSchema } from '../../src/verify/requests.js';
import { transientsInput } from '../../src/verify/transients-input.js';
import { TransientsRequestSchema } from '../../src/verify/transients-schema.js';

type Body = Record<string, any>;
const example = (operation: string, name: string): Body =>
  structuredClone(requestExamples[operation]?.[name]?.value) as Body;
const car = () => example('verifyCircuit', 'smallCar');

function read(schema: Parameters<typeof readRequest>[0], body: unknown): Request {
  const reading = readRequest(schema, body);
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  return reading.request;
}

describe('a request to judge', () => {
  it('has its circuit in SI and its ruleset', () => {
    const request = read(JudgeRequestSchema, car());
    expect(request.rulesets.map(({ id }) => id)).toEqual(['student-ev-2020']);
    expect(request.several).toBe(false);
    expect(request.event).toBeUndefined();
    const meter = request.circuit.elements.find(({ id }) => id === 'meter');
    expect(meter).toMatchObject({ resistance: { nominal: 47_000, toleranceStated: false } });
  });

  it('keeps several rulesets in the order given, and one in a list is a list', () => {
    const { ruleset: _, ...rest } = car();
    const ids = ['student-ev-2026', 'collegiate-ev-2014'];
    expect(read(JudgeRequestSchema, { ...rest, rulesets: ids })).toMatchObject({
      several: true,
      rulesets: ids.map((id) => ({ id })),
    });
    expect(read(JudgeRequestSchema, { ...rest, rulesets: ['student-ev-2026'] }).several).toBe(true);
  });

  it('has the event in SI', () => {
    const event = { meterResistance: '47 kΩ', parameters: { threshold: 0.9, dischargeClock: 'relays-open' } };
    expect(read(JudgeRequestSchema, { ...car(), event }).event).toEqual({ ...event, meterResistance: 47_000 });
    expect(read(JudgeRequestSchema, { ...car(), event: {} }).event).toEqual({ parameters: {} });
  });

  it('takes an event’s parameters in the forms of every other quantity', () => {
    const parameters = {
      threshold: '90 %',
      dischargeVoltage: '60 V',
      dischargeTime: '5000 ms',
      dischargeRatingTime: null,
      repeats: { count: 3, within: '15 s' },
      assumedTolerance: { resistor: '10 %', capacitor: 0.2, meter: '2 %' },
    };
    expect(read(JudgeRequestSchema, { ...car(), event: { parameters } }).event?.parameters).toEqual({
      threshold: 0.9,
      dischargeVoltage: 60,
      dischargeTime: 5,
      dischargeRatingTime: null,
      repeats: { count: 3, within: 15 },
      assumedTolerance: { resistor: 0.1, capacitor: 0.2, meter: 0.02 },
    });
  });

  it('names each of an event’s parameters that cannot be read or meant, once', () => {
    const parameters = {
      dischargeVoltage: '60 s',
      dischargeTime: '5 ms',
      repeats: { count: '3', within: '15 V' },
      maximumReleaseTime: 'soon',
      dischargeClock: '5 s',
    };
    const reading = readRequest(JudgeRequestSchema, { ...car(), event: { parameters } });
    const places = 'faults' in reading ? reading.faults.map(({ pointer, code }) => [pointer.slice(19), code]) : [];
    expect(places).toEqual([
      ['dischargeClock', 'not-one-of'],
      ['dischargeTime', 'out-of-bounds'],
      ['dischargeVoltage', 'wrong-unit'],
      ['maximumReleaseTime', 'not-a-quantity'],
      ['repeats/count', 'wrong-type'],
      ['repeats/within', 'wrong-unit'],
    ]);
  });
});

describe('a request to check', () => {
  it('needs and takes a circuit only', () => {
    expect(read(CheckRequestSchema, { circuit: car()['circuit'] }).rulesets).toEqual([]);
    expect(readRequest(CheckRequestSchema, car())).toMatchObject({
      faults: [{ pointer: '#/ruleset', code: 'unknown-field' }],
    });
  });
});

describe('a request for transients', () => {
  const rise = () => example('computeTransients', 'rise');

  it('has probes and instants', () => {
    const input = transientsInput(
      read(TransientsRequestSchema, { ...rise(), sequence: [{ at: 0, close: ['air-neg'] }] }),
    );
    expect(input.instants).toEqual({ duration: 8, samples: 5 });
    expect(input.probes).toEqual([
      { id: 'link-voltage', quantity: 'voltage', nodes: ['lp', 'ln'] },
      { id: 'resistor-current', quantity: 'current', element: 'precharge-resistor' },
    ]);
    expect(input.sequence).toEqual([{ at: 0, close: ['air-neg'], open: [], release: false }]);
  });

  it('reads all four kinds of probe', () => {
    const probes = [
      { id: 'v', voltage: ['lp', 'ln'] },
      { id: 'i', current: 'hvd' },
      { id: 'p', power: 'pack' },
      { id: 't', temperature: 'precharge-resistor' },
    ];
    const quantities = read(TransientsRequestSchema, { ...rise(), probes }).probes.map(({ quantity }) => quantity);
    expect(quantities).toEqual(['voltage', 'current', 'power', 'temperature']);
  });

  it('watches the link where no probe is stated', () => {
    const { probes: _, ...rest } = rise();
    expect(transientsInput(read(TransientsRequestSchema, rest)).probes).toEqual([
      { id: 'link', quantity: 'voltage', nodes: ['lp', 'ln'] },
    ]);
  });

  it('has nothing to watch in a circuit without a link', () => {
    const { probes: _, ...rest } = rise();
    rest['circuit'].elements = rest['circuit'].elements.filter(({ kind }: Body) => kind !== 'capacitor');
    const request = read(TransientsRequestSchema, rest);
    expect(() => transientsInput(request)).toThrow(/no intermediate circuit/);
  });
});

describe('a request whose circuit has faults of its own', () => {
  const places = (body: Body): string[] => {
    const reading = readRequest(TransientsRequestSchema, body);
    return 'faults' in reading ? reading.faults.map(({ pointer, code }) => `${pointer} ${code}`) : [];
  };
  const faulty = (): Body => {
    const body = example('computeTransients', 'rise');
    body['circuit'].elements[0].resistance = '120 V';
    body['sequence'] = [{ at: 0, close: ['air-neg', 'air-nog'], open: ['link'] }];
    body['probes'] = [
      { id: 'v', voltage: ['lp', 'lx'] },
      { id: 'i', current: 'no-such' },
      { id: 't', temperature: 'hvd' },
    ];
    return body;
  };

  it('has its dangling names told in the same answer', () => {
    expect(places(faulty())).toEqual([
      '#/circuit/elements/0/resistance wrong-unit',
      '#/probes/0/voltage/1 unknown-node',
      '#/probes/1/current unknown-element',
      '#/probes/2/temperature wrong-kind',
      '#/sequence/0/close/1 unknown-element',
      '#/sequence/0/open/0 wrong-kind',
    ]);
  });

  it('has no name called dangling that may be the one that could not be read', () => {
    const body = faulty();
    body['circuit'].elements[0].id = 7;
    body['circuit'].elements[1].nodes = 'bp';
    expect(places(body).filter((place) => place.includes('unknown-'))).toEqual([]);
    body['circuit'] = 'none';
    expect(places(body)).toEqual(['#/circuit wrong-type']);
  });
});

describe('instants', () => {
  it.each<[object, unknown]>([
    [{}, { samples: 201 }],
    [{ duration: '500 ms' }, { duration: 0.5, samples: 201 }],
    [{ samples: 2 }, { samples: 2 }],
    [{ times: [0, '5 ms', 0.005, 1] }, { times: [0, 0.005, 0.005, 1] }],
  ])('of %j are %j', (given, instants) => {
    expect(readInstants(given, '#')).toEqual({ instants });
  });

  it.each<[object, string[]]>([
    [{ times: 'now' }, ['#/times wrong-type']],
    [{ times: [] }, ['#/times wrong-length']],
    [{ times: [2, 1, 1.5] }, ['#/times/1 unordered-times', '#/times/2 unordered-times']],
    [{ times: [0], samples: 2 }, ['#/times times-or-samples']],
    [{ duration: '5 V', samples: '7' }, ['#/duration wrong-unit', '#/samples wrong-type']],
    [{ samples: 0 }, ['#/samples out-of-bounds']],
    [{ samples: 10_001 }, ['#/samples too-costly']],
  ])('of %j have faults', (given, expected) => {
    const reading = readInstants(given, '#');
    const faults = 'faults' in reading ? reading.faults.map(({ pointer, code }) => `${pointer} ${code}`) : [];
    expect(faults).toEqual(expected);
  });
});

describe('rulesets', () => {
  it.each<[object, string[]]>([
    [{}, ['#/ruleset missing-field']],
    [{ ruleset: 7 }, ['#/ruleset wrong-type']],
    [{ ruleset: 'student-ev-2021' }, ['#/ruleset unknown-ruleset']],
    [{ rulesets: 'student-ev-2020' }, ['#/rulesets wrong-type']],
    [{ rulesets: [] }, ['#/rulesets wrong-length']],
    [{ rulesets: Array.from({ length: 11 }, () => 'student-ev-2020') }, ['#/rulesets wrong-length']],
    [
      { rulesets: ['student-ev-2020', null, 'student-ev-2020'] },
      ['#/rulesets/1 wrong-type', '#/rulesets/2 repeated-item'],
    ],
  ])('of %j have faults', (given, expected) => {
    const reading = readRulesets(given, '#');
    const faults = 'faults' in reading ? reading.faults.map(({ pointer, code }) => `${pointer} ${code}`) : [];
    expect(faults).toEqual(expected);
  });

  it('are suggested to one who came close', () => {
    const reading = readRulesets({ ruleset: 'studnet-ev-2020' }, '#');
    expect('faults' in reading && reading.faults[0]?.detail).toContain('did you mean `student-ev-2020`?');
  });

  it('are suggested by the latest of their kind to one who asks for another year', () => {
    const reading = readRulesets({ ruleset: 'student-ev-2027' }, '#');
    expect('faults' in reading && reading.faults[0]?.detail).toContain('the latest of its kind is `student-ev-2026`');
  });
});
