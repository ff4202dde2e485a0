import { describe, expect, it } from 'vitest';
import { elementById, type ResolvedCircuit } from '../../src/circuit/model.js';
import { createFacts } from '../../src/facts/create-facts.js';
import type { Facts } from '../../src/facts/facts.js';
import type { Figure } from '../../src/facts/figure.js';
import { computeLimits } from '../../src/limits/index.js';
import { cornerCircuit } from './corner-circuit.js';
import { exampleCases } from './example-cases.js';
import { conditionsOf, plainCircuit, q } from './plain-car.js';

const conditions = conditionsOf('student-ev-2026');

const circuit = plainCircuit({
  parts: {
    pack: { voltage: { min: 400, nominal: 550, max: 600 }, resistance: q(0.2, 0.5) },
    'pre-resistor': { resistance: 1000 },
    link: { capacitance: q(500e-6, 0.1), esr: q(0.01, 0.2) },
    'air-pos': { releaseTime: undefined },
  },
});

function field(from: ResolvedCircuit, id: string, name: string): unknown {
  return (elementById(from, id) as unknown as Record<string, unknown> | undefined)?.[name];
}

describe('a corner of a circuit', () => {
  it('has each part where its share of its range says, and exactly there', () => {
    const corner = cornerCircuit(circuit, conditions, {
      pack: 1,
      'pack.resistance': -1,
      link: 0.5,
      'link.esr': -0.9999999999999991,
    });
    expect(field(corner, 'pack', 'voltage')).toEqual({ min: 600, nominal: 600, max: 600, toleranceStated: true });
    expect(field(corner, 'pack', 'resistance')).toMatchObject({ min: 0.1, max: 0.1 });
    expect((field(corner, 'link', 'capacitance') as { nominal: number }).nominal).toBeCloseTo(525e-6, 12);
    expect(field(corner, 'link', 'esr')).toMatchObject({ nominal: 0.008 });
  });

  it('takes the ruleset’s tolerance where none is stated, and the nominal where nothing is said', () => {
    const corner = cornerCircuit(circuit, conditions, { 'pre-resistor': 1 });
    expect(field(corner, 'pre-resistor', 'resistance')).toMatchObject({ nominal: 1100, toleranceStated: true });
    expect(field(corner, 'pack', 'voltage')).toMatchObject({ nominal: 550 });
  });

  it('places a release time that is not stated between at once and the ruleset’s longest', () => {
    const corner = cornerCircuit(circuit, conditions, { 'air-pos.releaseTime': 1 });
    expect(field(corner, 'air-pos', 'releaseTime')).toBe(conditions.maximumReleaseTime);
  });

  it.each(exampleCases.map((each) => [each.id, each] as const))(
    'gives the worst figures of %s at nominal',
    (_, { facts }) => {
      const { steadyRatio, timeToThreshold, peakCurrent } = facts.rise;
      // Between the worst that was found, at the corner, and what nothing lies beyond there may be a gap.
      const near = (actual: number | null, figure: Figure, end: 'min' | 'max'): void => {
        const { [end]: worst, gap } = figure;
        if (worst === null) {
          expect(actual).toBe(null);
          return;
        }
        const found = worst + (end === 'min' ? 1 : -1) * (gap?.[end] ?? 0);
        expect(Math.abs((actual ?? Number.NaN) / found - 1)).toBeLessThan(1e-9);
      };
      near(facts.at(steadyRatio.at.min).rise.steadyRatio.nominal, steadyRatio, 'min');
      near(facts.at(peakCurrent.at.max).rise.peakCurrent.nominal, peakCurrent, 'max');
      near(facts.at(timeToThreshold.at.max).rise.timeToThreshold.nominal, timeToThreshold, 'max');
      for (const [index, fall] of facts.falls.entries()) {
        for (const [place, { timeToLimit }] of fall.voltages.entries()) {
          const corner = facts.at(timeToLimit.at.max).falls[index]?.voltages[place];
          near(corner?.timeToLimit.nominal ?? null, timeToLimit, 'max');
        }
      }
    },
  );
});

describe('the worst case that a limit was taken at', () => {
  const limitsOf = (name: string) =>
    exampleCases.flatMap(({ id, facts }) =>
      computeLimits(facts)
        .limits.filter((record) => record.name === name && record.value !== null && record.missing === undefined)
        .map((record) => ({ id, facts, record })),
    );

  it.each([
    [
      'precharge-resistance-max-loads',
      ({ rise }, { conditions: { threshold } }) => (rise.steadyRatio.nominal ?? 0) / threshold,
    ],
    [
      'precharge-load-resistance-min',
      ({ rise }, { conditions: { threshold } }) => (rise.steadyRatio.nominal ?? 0) / threshold,
    ],
    [
      'discharge-resistance-max-time',
      ({ falls }, { conditions: { dischargeTime } }) =>
        Math.max(
          ...falls.flatMap(({ required, voltages }) =>
            required ? voltages.map(({ timeToLimit }) => timeToLimit.nominal ?? Infinity) : [],
          ),
        ) / dischargeTime,
    ],
  ] as [string, (figures: Pick<Facts, 'rise' | 'falls'>, facts: Facts) => number][])(
    'of %s just keeps its rule, the part at its bound and the others where it says',
    (name, share) => {
      const found = limitsOf(name);
      expect(found.length).toBeGreaterThan(5);
      for (const { id, facts, record } of found) {
        const { element = '', value, at = {} } = record;
        expect([id, Object.keys(at).includes(element)]).toEqual([id, false]);
        expect([id, Object.keys(at).length > 2]).toEqual([id, true]);
        const corner = createFacts(cornerCircuit(facts.circuit, facts.conditions, at), facts.conditions);
        const quick = share(facts.at(at).vary(element, value ?? 0), facts);
        expect([id, Math.abs(quick / share(corner.vary(element, value ?? 0), facts) - 1) < 1e-9]).toEqual([id, true]);
        // At a corner stands what was found; a bound keeps clear of the gap beyond it too.
        const gaps = facts.falls.flatMap(({ voltages }) =>
          voltages.map(({ timeToLimit }) => (timeToLimit.gap?.max ?? 0) / (timeToLimit.max ?? 1)),
        );
        const slack = 1e-8 + 10 * Math.max(0, ...gaps);
        expect([id, Math.abs(share(corner.vary(element, value ?? 0), facts) - 1) < slack]).toEqual([id, true]);
      }
    },
  );

  it('is not told where nothing has a range', () => {
    const plain = computeLimits(createFacts(plainCircuit(), conditions)).limits;
    expect(plain.find(({ name }) => name === 'precharge-resistance-max-loads')?.at).toEqual({});
  });
});
