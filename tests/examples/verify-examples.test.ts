import { beforeAll, describe, expect, test } from 'vitest';
import { buildApp } from '../../src/http/build-app.js';
import type { Report } from '../../src/verify/report.js';
import { byHand } from './by-hand.js';
import { examples } from './read-examples.js';

const reports = new Map<string, Report>();

beforeAll(async () => {
  const app = await buildApp();
  for (const { file, example } of examples) {
    const answer = await app.inject({ method: 'POST', url: '/v1/verify', payload: example.request });
    if (answer.statusCode !== 200) throw new Error(`${file}: ${answer.body}`);
    reports.set(file, answer.json<Report>());
  }
  await app.close();
}, 120_000);

function reportOf(file: string): Report {
  const report = reports.get(file);
  if (report === undefined) throw new Error(`${file} was not verified`);
  return report;
}

// `expected` was calculated by hand from the contract's table of rules, the divider and e^(-t/RC); not copied from an answer.
test.each(examples)('$file: verdict and findings are those calculated by hand', ({ file, example }) => {
  const { verdict, findings } = reportOf(file);
  const withStatus = (status: string): string[] =>
    findings
      .filter((finding) => finding.status === status)
      .map(({ rule }) => rule)
      .sort();
  expect({ verdict, violated: withStatus('violated'), undetermined: withStatus('undetermined') }).toEqual(
    example.expected,
  );
});

/** What the formulas leave out: fuses, cables, contacts and series resistances of at most 20 mΩ beside 220 Ω and more. */
const LEFT_OUT = 1e-4;
/** The heat of the discharge is measured behind the accumulator's inner resistance: less than 1 Ω beside 2.5 kΩ and more. */
const INNER_RESISTANCE = 1e-3;

function expectNear(actual: number | null | undefined, wanted: number, relative: number): void {
  expect(Math.abs((actual ?? Number.NaN) / wanted - 1)).toBeLessThan(relative);
}

describe.each(examples)(
  '$file: worst cases agree with the textbook’s divider and time constant',
  ({ file, example }) => {
    const hand = byHand(example);

    test('where the rise settles, how fast and with what current', () => {
      const { precharge } = reportOf(file);
      expectNear(precharge.steadyRatio.min, hand.ratio, 1e-6);
      if (hand.rise === null) expect(precharge.timeToThreshold.max).toBeNull();
      else {
        const { max, gap } = precharge.timeToThreshold;
        // Where several capacitors leave a gap the bound lies beyond what is found by no more than that.
        expectNear((max ?? Number.NaN) - (gap?.max ?? 0), hand.rise, LEFT_OUT);
        expectNear(max, hand.rise, LEFT_OUT + (gap?.max ?? 0) / hand.rise);
      }
      expectNear(precharge.peakCurrent.max, hand.peakCurrent, LEFT_OUT);
    });

    // Only cars whose discharge path holds in every state; the others never get there, which `expected` says.
    test.skipIf(example.expected.violated.includes('discharge-time'))('how long the fall takes, and the heat', () => {
      const required = reportOf(file).discharge.filter((state) => state.required);
      const slowest = Math.max(...required.map(({ timeToLimit }) => timeToLimit?.max ?? Number.POSITIVE_INFINITY));
      // Which meters stay on the link depends on the state; the relays release 20 and 30 ms after the shutdown circuit opens.
      expect(slowest).toBeGreaterThan(hand.fall.shortest);
      expect(slowest).toBeLessThan(hand.fall.longest + 0.04);
      const watts = required
        .flatMap(({ continuousPower }) => continuousPower)
        .filter(({ element }) => element === 'discharge-resistor')
        .map(({ max }) => max ?? Number.NaN);
      expectNear(Math.max(...watts), hand.power, INNER_RESISTANCE);
    });
  },
);
