import { beforeAll, describe, expect, it } from 'vitest';
import { lazily } from '../../src/facts/lazily.js';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import {
  findBreaches,
  findLimits,
  forEachRuleset,
  JudgeRequestSchema,
  readRequest,
  type Report,
  type Request,
  verifyCircuit,
} from '../../src/verify/index.js';

// Every figure is checked against the textbook formula (OpenStax, College Physics 2e, section 21.6: charging and
// discharging through a resistor; the divider) with the values of the example car typed in, not read from it.
const R = 1000;
const METER = 47_000;
const PACK = 0.12;
const C = 470e-6;
const DISCHARGE = 2700;
const MAX = 420;
const NOMINAL = 370;
/** Isolation relays hold the link up for 20 ms after the shutdown circuit has opened; the discharge contact is faster. */
const RELEASE = 0.02;
const METER_TOLERANCE = 0.02; // student-ev-2020, ours: a meter's tolerance where none is stated
const parallel = (a: number, b: number) => 1 / (1 / a + 1 / b);
const close = (value: number | null | undefined, expected: number) =>
  expect((value ?? Number.NaN) / expected).toBeCloseTo(1, 9);

function read(name: string): Request {
  const reading = readRequest(JudgeRequestSchema, requestExamples['verifyCircuit']?.[name]?.value);
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  return reading.request;
}
function verify(name: string): Report {
  const answer = forEachRuleset(read(name), verifyCircuit);
  if ('reports' in answer) throw new Error('one report was expected');
  return answer;
}

describe('the report on the small car', { timeout: 120_000 }, () => {
  let report: Report;
  beforeAll(() => {
    report = verify('smallCar');
  }, 120_000);

  it('has the equilibrium of the divider, nominal and at its worst', () => {
    close(report.precharge.steadyRatio.nominal, METER / (METER + R + PACK));
    const meter = METER * (1 - METER_TOLERANCE);
    close(report.precharge.steadyRatio.min, meter / (meter + R * 1.05 + PACK));
  });

  it('has the time constant of the rise with the meter as a permanent load', () => {
    close(report.precharge.timeConstant.nominal, parallel(R + PACK, METER) * C);
  });

  it('has the peak current and power of the first instant', () => {
    close(report.precharge.peakCurrent.max, MAX / (R * 0.95 + PACK));
    close(report.precharge.resistorPeakPower.nominal, (NOMINAL / (R + PACK)) ** 2 * R);
  });

  it('has the time to 95 % of a rise that ends below 100 %', () => {
    const end = METER / (METER + R + PACK);
    close(report.precharge.timeToThreshold.nominal, parallel(R + PACK, METER) * C * Math.log(end / (end - 0.95)));
    expect(report.precharge.timeToThreshold.reached).toBe('always');
  });

  it('never ends heating a resistor behind which a meter draws', () => {
    expect(report.precharge.resistorEnergyTotal.nominal).toBeNull();
  });

  it('says what it would need for a temperature', () => {
    expect(report.precharge.resistorPeakTemperature).toMatchObject({ nominal: null, reason: 'not-stated' });
    expect(report.precharge.resistorPeakTemperature.missing?.length).toBeGreaterThan(0);
  });

  it('has a fall for each separation state, with the meter where it stays on the link', () => {
    const falls = new Map(report.discharge.map((fall) => [fall.scenario, fall]));
    expect([...falls.keys()].sort()).toEqual(['all-separated', 'container-removed', 'disconnect-open', 'shutdown']);
    const time = (resistance: number, start: number) => RELEASE + resistance * C * Math.log(start / 60);
    close(falls.get('disconnect-open')?.timeToLimit?.nominal, time(DISCHARGE, NOMINAL));
    close(falls.get('container-removed')?.timeToLimit?.nominal, time(parallel(DISCHARGE, METER), NOMINAL));
    const worst = RELEASE + DISCHARGE * 1.05 * C * 1.2 * Math.log(MAX / 60);
    close(falls.get('disconnect-open')?.timeToLimit?.max, worst);
    for (const fall of falls.values()) expect([fall.satisfied, fall.voltage]).toEqual([true, 'link']);
  });

  it('has the energy of a fall and the power at the highest voltage', () => {
    const fall = report.discharge.find(({ scenario }) => scenario === 'disconnect-open');
    const [energy] = fall?.resistorEnergy ?? [];
    close(energy?.nominal, 0.5 * C * NOMINAL ** 2);
    const [power] = fall?.continuousPower ?? [];
    close(power?.max, MAX ** 2 / (DISCHARGE * 0.95));
  });

  it('says whose order was run and what was assumed', () => {
    expect(report.sequence.source).toBe('default');
    expect(report.sequence.steps[0]?.close).toEqual(['air-neg', 'precharge-relay']);
    expect(report.provenance.assumptions.map(({ pointer }) => pointer)).toContain('#/circuit/elements/9/resistance');
    expect(report.provenance.ruleset).toMatchObject({ id: 'student-ev-2020', defaulted: false });
  });

  it('never calls a car safe, passed or approved', () => {
    const { cautions: _, ...rest } = report;
    // 'Fail-safe' is a term of the trade and says nothing of a car.
    expect(JSON.stringify(rest)).not.toMatch(/(?<!fail-)\b(?:safe|passed|approved|approval)\b/i);
  });

  it('has the same findings and limits as the calls for these alone', () => {
    const { circuit, rulesets } = read('smallCar');
    const subject = { circuit, ruleset: rulesets[0]! };
    expect(findBreaches(subject)).toMatchObject({ verdict: report.verdict, findings: report.findings });
    expect(findLimits(subject)).toMatchObject({ limits: report.limits, windows: report.windows });
  });
});

const withElements = (more: readonly object[]): Report => {
  const { circuit, ruleset } = requestExamples['verifyCircuit']?.['smallCar']?.value as {
    readonly circuit: { readonly elements: readonly object[]; readonly link?: readonly string[] };
    readonly ruleset: string;
  };
  const elements = [...circuit.elements, ...more];
  const reading = readRequest(JudgeRequestSchema, { circuit: { ...circuit, elements }, ruleset });
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  const answer = forEachRuleset(reading.request, verifyCircuit);
  if ('reports' in answer) throw new Error('one report was expected');
  return answer;
};

describe('accuracy', { timeout: 120_000 }, () => {
  const withLoad = (load: object) =>
    withElements([{ id: 'x', kind: 'load', nodes: ['lp', 'ln'], zone: 'vehicle', ...load }]);

  it('is stated where a load of constant power is followed, and nowhere else', () => {
    expect(withLoad({ power: '2 W', startsAbove: 200 }).provenance.accuracy).toBe(2e-8);
    expect(withLoad({ current: '2 mA' }).provenance).not.toHaveProperty('accuracy');
  });
});

describe('a load that what feeds it cannot bear', { timeout: 120_000 }, () => {
  // v = E − R·P/v has a solution from E = 2·√(P·R) on: 155 V for 300 W behind 20 Ω. At 100 V it wakes and falls asleep at once.
  const report = lazily(() =>
    withElements([
      { id: 'far', kind: 'resistor', nodes: ['lp', 'x'], zone: 'vehicle', resistance: 20 },
      {
        id: 'heater',
        kind: 'load',
        nodes: ['x', 'ln'],
        zone: 'vehicle',
        power: 300,
        startsAbove: 100,
        stopsBelow: 60,
      },
    ]),
  );

  it('leaves open what it takes part in, in words that name it, and nothing else', () => {
    const { findings, verdict } = report();
    const open = findings.filter(
      ({ status, message }) => status === 'undetermined' && message.includes('across heater'),
    );
    expect(open.map(({ rule }) => rule)).toContain('precharge-reaches-threshold');
    for (const { elements, missing } of open) {
      expect(elements).toEqual(['heater']);
      expect(missing).toEqual([expect.stringMatching(/\/startsAbove$/)]);
    }
    // Nothing of the rise is said that cannot be known: not that the relay never closes, nor that a rise has no end.
    expect(findings.filter(({ message }) => /never (?:closes|reaches)/.test(message))).toEqual([]);
    for (const { evidence } of open) expect(evidence?.['actual'] ?? null).toBeNull();
    // The fall knows no load.
    expect(findings.find(({ rule }) => rule === 'discharge-time')?.status).toBe('met');
    expect(verdict).toBe('undetermined');
  });

  it('leaves the rise without figures, with the reason, and without a limit that it takes part in', () => {
    const { precharge, limits } = report();
    expect(precharge.steadyRatio).toMatchObject({ nominal: null, reason: 'no-state-holds' });
    const limit = limits.find(({ name }) => name === 'precharge-resistance-max-loads');
    expect(limit).toMatchObject({ outcome: 'not-stated', satisfied: null });
  });
});

describe('an event', { timeout: 120_000 }, () => {
  it('adds its meter to the rise where it is the lower one', () => {
    const { circuit, rulesets } = read('smallCar');
    const event = { meterResistance: 20_000, parameters: {} };
    const report = verifyCircuit({ circuit, ruleset: rulesets[0]!, event });
    close(report.precharge.steadyRatio.nominal, 20_000 / (20_000 + R + PACK));
    expect(report.provenance.event).toEqual(event);
  });

  it('replaces parameters, visibly', () => {
    const { circuit, rulesets } = read('smallCar');
    const event = { parameters: { threshold: 0.9 } };
    const report = verifyCircuit({ circuit, ruleset: rulesets[0]!, event });
    const end = METER / (METER + R + PACK);
    close(report.precharge.timeToThreshold.nominal, parallel(R + PACK, METER) * C * Math.log(end / (end - 0.9)));
    // Formula Student Rules 2020, EV 5.7.1: 95 %.
    expect(report.provenance.overrides).toEqual([{ parameter: 'threshold', from: 0.95, to: 0.9 }]);
  });
});

describe('several rulesets', { timeout: 120_000 }, () => {
  it('are answered in the order asked, each by its own book', () => {
    const answer = forEachRuleset(read('severalRulesets'), findBreaches);
    expect('reports' in answer && answer.reports.map(({ provenance }) => provenance.ruleset?.id)).toEqual([
      'student-ev-2020',
      'collegiate-ev-2024',
    ]);
  });
});
