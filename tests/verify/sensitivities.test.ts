import { describe, expect, it } from 'vitest';
import { requestExamples } from '../../src/http/openapi/request-examples.js';
import { markdownReport } from '../../src/render/index.js';
import {
  forEachRuleset,
  readRequest,
  type Report,
  VerifyRequestSchema,
  verifyCircuit,
} from '../../src/verify/index.js';
import { sensitivities } from '../../src/verify/sensitivities.js';

type Body = Record<string, unknown>;
const example = (name: string) => structuredClone(requestExamples['verifyCircuit']?.[name]?.value) as Body;

function reportOf(body: Body): Report {
  const reading = readRequest(VerifyRequestSchema, body);
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  const { request } = reading;
  const answer = forEachRuleset(request, (subject) => verifyCircuit(subject, request.sensitivities));
  if ('reports' in answer) throw new Error('one report was expected');
  return answer;
}

// The small car: 370 V (280 to 420), 0.12 Ω inside, 1 kΩ ± 5 % into a meter of 47 kΩ (tolerance not stated: 2 % in the ruleset), 470 µF
// ± 20 %, discharged by 2.7 kΩ. Expected: the textbook formulas (divider, charging through a resistor) with one value moved.
const steady = ({ r = 1000, meter = 47_000, inside = 0.12 }) => meter / (meter + r + inside);
const charging = ({ r = 1000, meter = 47_000, c = 470e-6 }) => {
  const source = r + 0.12;
  const end = steady({ r, meter });
  return ((source * meter) / (source + meter)) * c * Math.log(end / (end - 0.95));
};

describe('which parts move a figure most', () => {
  const report = reportOf(example('withSensitivities'));
  const named = (
    figure: { sensitivities?: { element: string; low: number | null; high: number | null }[] } | undefined,
  ) => figure?.sensitivities ?? [];

  it('is the difference that one part alone makes', () => {
    const [first, second, ...rest] = named(report.precharge.steadyRatio);
    expect(first?.element).toBe('precharge-resistor');
    expect(first?.low).toBeCloseTo(steady({ r: 950 }) - steady({}), 12);
    expect(first?.high).toBeCloseTo(steady({ r: 1050 }) - steady({}), 12);
    expect(second?.element).toBe('meter');
    expect(second?.low).toBeCloseTo(steady({ meter: 47_000 * 0.98 }) - steady({}), 12);
    expect(rest).toEqual([]);
  });

  it('ranks by the larger of both changes and leaves out what has no part in the figure', () => {
    const time = named(report.precharge.timeToThreshold);
    expect(time.map(({ element }) => element)).toEqual(['link', 'precharge-resistor', 'meter']);
    expect(time[0]?.high).toBeCloseTo(charging({ c: 470e-6 * 1.2 }) - charging({}), 10);
    expect(time[1]?.low).toBeCloseTo(charging({ r: 950 }) - charging({}), 10);
    expect(time[2]?.high).toBeCloseTo(charging({ meter: 47_000 * 1.02 }) - charging({}), 10);
    expect(named(report.precharge.peakCurrent).map(({ element }) => element)).toEqual(['pack', 'precharge-resistor']);
  });

  it('comes with the time of every fall, by the ruleset’s clock', () => {
    const fall = report.discharge.find(({ scenario }) => scenario === 'disconnect-open');
    const [first] = named(fall?.timeToLimit);
    // RC·ln(U/60) with the link 20 % larger; the delay of the relays drops out.
    const resistance = named(fall?.timeToLimit).some(({ element }) => element === 'meter')
      ? 1 / (1 / 2700 + 1 / 47_000)
      : 2700;
    expect(first?.element).toBe('link');
    expect(first?.high).toBeCloseTo(0.2 * resistance * 470e-6 * Math.log(370 / 60), 9);
  });

  it('is left out of a report that nobody asks it of, and changes nothing else', () => {
    const { provenance, ...plain } = reportOf(example('smallCar'));
    const without = JSON.parse(
      JSON.stringify(report, (key, value: unknown) => (key === 'sensitivities' ? undefined : value)),
    ) as Report;
    expect(JSON.stringify(plain)).not.toContain('sensitivities');
    expect({ ...without, provenance: undefined }).toEqual({ ...plain, provenance: undefined });
    // Another answer, another digest.
    expect(report.provenance.inputDigest).not.toBe(provenance.inputDigest);
  });

  it('is told in the report to read, with signs and units', () => {
    const text = markdownReport(report, { title: 'Small car' });
    const section = text.split('\n## ').find((part) => part.startsWith('What moves the figures most')) ?? '';
    expect(section).toMatch(/\| Time to the threshold +\| `link` +\| +−[\d.]+ m?s \| +\+[\d.]+ m?s \|/);
    expect(section).toMatch(/\| Time to the limit, disconnect open +\| `link`/);
    expect(markdownReport(reportOf(example('smallCar')), { title: 'Small car' })).not.toContain('What moves');
  });

  it('is told in the report to read without the parts of less than a hundredth of the largest effect', () => {
    const sensitivities = [
      { element: 'ends', low: null, high: 0 },
      { element: 'large', low: -1, high: 1 },
      { element: 'just', low: 0, high: 0.01 },
      { element: 'small', low: -0.009, high: 0.009 },
    ];
    const precharge = { ...report.precharge, timeConstant: { ...report.precharge.timeConstant, sensitivities } };
    const text = markdownReport({ ...report, precharge }, { title: 'Small car' });
    expect(text).toMatch(/\| Time constant +\| `ends` +\| +never \| +0 s \|/);
    expect(text).toContain('`large`');
    expect(text).toContain('`just`');
    expect(text).not.toContain('`small`');
  });

  it('takes nothing but true and false for the wish', () => {
    const reading = readRequest(VerifyRequestSchema, { ...example('smallCar'), sensitivities: 'yes' });
    expect(reading).toMatchObject({ faults: [{ pointer: '#/sensitivities' }] });
  });
});

describe('sensitivities()', () => {
  const move = (element: string, low: number | null, high: number | null) => ({ element, low, high });

  it('puts what ends the figure first, keeps five, and breaks ties by name', () => {
    const moves = [
      move('f', 9, 11),
      move('a', 8, 12),
      move('b', 8, 12),
      move('never', 9.9, Infinity),
      move('none', null, 10),
      move('c', 7, 12),
      move('d', 10, 10),
    ];
    expect(sensitivities(10, moves)).toEqual([
      { element: 'never', low: expect.closeTo(-0.1, 12) as number, high: null },
      { element: 'none', low: null, high: 0 },
      { element: 'c', low: -3, high: 2 },
      { element: 'a', low: -2, high: 2 },
      { element: 'b', low: -2, high: 2 },
    ]);
  });

  it('has nothing to say of a figure without a number', () => {
    expect(sensitivities(null, [move('a', 1, 2)])).toEqual([]);
  });

  it('takes rounding for no effect', () => {
    expect(sensitivities(10, [move('a', 10 + 1e-9, 10)])).toEqual([]);
  });
});
