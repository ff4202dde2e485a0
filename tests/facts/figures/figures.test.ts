import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCircuit } from '../../../src/circuit/index.js';
import type { ResolvedCircuit } from '../../../src/circuit/model.js';
import { createFacts } from '../../../src/facts/create-facts.js';
import type { Facts, Rise } from '../../../src/facts/facts.js';
import type { Figure } from '../../../src/facts/figure.js';
import { rulesetById } from '../../../src/rules/index.js';

const folder = new URL('../../../openapi/examples/', import.meta.url);
const ids = readdirSync(folder).map((name) => name.replace('.json', ''));

interface WireElement {
  readonly id: string;
  [field: string]: unknown;
}

function wire(id: string): { elements: WireElement[] } {
  const file = JSON.parse(readFileSync(new URL(`${id}.json`, folder), 'utf8')) as {
    request: { circuit: { elements: WireElement[] } };
  };
  return file.request.circuit;
}

function resolved(circuit: unknown): ResolvedCircuit {
  const reading = readCircuit(circuit, '#/circuit');
  if ('faults' in reading) throw new Error(reading.faults.map(({ detail }) => detail).join(' '));
  return reading.circuit;
}

function factsOf(circuit: unknown): Facts {
  const ruleset = rulesetById('student-ev-2020');
  if (ruleset === undefined) throw new Error('the ruleset is gone');
  return createFacts(resolved(circuit), ruleset.conditions);
}

const names = [
  'steadyRatio',
  'timeToThreshold',
  'timeConstant',
  'peakCurrent',
  'resistorEnergy',
  'resistorEnergyTotal',
  'resistorPeakPower',
  'resistorPeakTemperature',
  'currentAtSecondClosure',
] as const satisfies readonly (keyof Rise)[];

const figures = (facts: Facts, order: readonly (typeof names)[number][]): Figure[] => {
  const read = new Map(order.map((name) => [name, facts.rise[name]] as const));
  return names.map((name) => read.get(name) ?? facts.rise[name]);
};

/** 600 V, 500 µF, 1 kΩ: the sample whose numbers are worked out in the reference tables; closed forms of one RC. */
const sample = {
  elements: [
    { id: 'air-neg', kind: 'contact', role: 'isolation-relay', rest: 'open', nodes: ['bn', 'ln'], zone: 'container' },
    { id: 'air-pos', kind: 'contact', role: 'isolation-relay', rest: 'open', nodes: ['bp', 'lp'], zone: 'container' },
    {
      id: 'link',
      kind: 'capacitor',
      nodes: ['lp', 'ln'],
      zone: 'vehicle',
      capacitance: { nominal: '500 µF', tolerance: 0 },
    },
    {
      id: 'pack',
      kind: 'accumulator',
      nodes: ['bp', 'bn'],
      zone: 'container',
      voltage: { nominal: 600, tolerance: 0 },
    },
    { id: 'relay', kind: 'contact', role: 'precharge-relay', rest: 'open', nodes: ['bp', 'x'], zone: 'container' },
    {
      id: 'r',
      kind: 'resistor',
      role: 'precharge',
      nodes: ['x', 'lp'],
      zone: 'container',
      resistance: { nominal: '1k', tolerance: 0 },
    },
  ],
};

const with47k = (resistance: number) => ({
  elements: [
    ...sample.elements.map((each) =>
      each.id === 'r' ? { ...each, resistance: { nominal: resistance, tolerance: 0 } } : each,
    ),
    { id: 'meter', kind: 'meter', nodes: ['lp', 'ln'], zone: 'vehicle', resistance: { nominal: 47_000, tolerance: 0 } },
  ],
});

describe('the figures of a rise', () => {
  it('are those of the textbook for a single resistor and capacitor', () => {
    const { rise } = factsOf(sample);
    // τ = RC = 0.5 s; t95 = τ·ln 20; U/R; U²/R; (2p − p²)·½CU² and ½CU² (any textbook on RC circuits).
    expect(rise.timeConstant.nominal).toBeCloseTo(0.5, 12);
    expect(rise.timeToThreshold.nominal).toBeCloseTo(0.5 * Math.log(20), 12);
    expect(rise.peakCurrent.max).toBeCloseTo(0.6, 12);
    expect(rise.resistorPeakPower.max).toBeCloseTo(360, 9);
    expect(rise.resistorEnergy.max).toBeCloseTo(0.9975 * 90, 9);
    expect(rise.resistorEnergyTotal.max).toBeCloseTo(90, 9);
    expect(rise.timeTo(1 - Math.exp(-3)).nominal).toBeCloseTo(1.5, 12);
  });

  it('never reach 95 % through 2.6 kΩ into a 47 kΩ meter, and say where they settle', () => {
    const { rise } = factsOf(with47k(2600));
    expect(rise.timeToThreshold.reached).toBe('never');
    expect(rise.steadyRatio.max).toBeCloseTo(47_000 / 49_600, 12);
  });

  it('reach 95 % just below 47 kΩ / 19 and never at it', () => {
    expect(factsOf(with47k(47_000 / 19)).rise.timeToThreshold.reached).toBe('never');
    expect(factsOf(with47k((47_000 / 19) * (1 - 1e-9))).rise.timeToThreshold.reached).toBe('always');
  });

  it.each(ids)('of %s do not depend on the order in which they are read', (id) => {
    const circuit = wire(id);
    const forth = figures(factsOf(circuit), names);
    const back = figures(factsOf(circuit), [...names].reverse());
    expect(back).toEqual(forth);
  });

  it.each(['sound-rear-pack', 'sound-two-inverters', 'sound-negative-precharge'])(
    'of %s hold every circuit inside the ranges (seeded trials)',
    (id) => {
      const circuit = wire(id);
      const { rise } = factsOf(circuit);
      let seed = 20;
      const random = (): number => {
        seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
        return seed / 2_147_483_648;
      };
      for (let trial = 0; trial < 12; trial += 1) {
        const elements = circuit.elements.map((element) => {
          const field = ['resistance', 'capacitance'].find((name) => isToleranced(element[name]));
          if (field === undefined) return element;
          const { nominal, tolerance } = element[field] as { nominal: number; tolerance: number };
          const share = trial % 2 === 0 ? Math.sign(random() - 0.5) : 2 * random() - 1;
          return { ...element, [field]: { nominal: nominal * (1 + share * tolerance), tolerance: 0 } };
        });
        const one = factsOf({ ...circuit, elements }).rise;
        for (const name of [
          'steadyRatio',
          'timeToThreshold',
          'timeConstant',
          'peakCurrent',
          'resistorPeakPower',
        ] as const) {
          // Rounding only: the ranges are the same numbers reached by another way.
          const slack = 1e-9 * Math.abs(rise[name].max ?? 0);
          expect(one[name].min ?? 0, name).toBeGreaterThanOrEqual((rise[name].min ?? 0) - slack);
          expect(one[name].max ?? 0, name).toBeLessThanOrEqual((rise[name].max ?? 0) + slack);
        }
      }
    },
  );

  it('name the resistance that is missing where the last relay would meet an ideal capacitor', () => {
    const figure = factsOf(sample).rise.currentAtSecondClosure;
    expect(figure.reason).toBe('ideal-loop');
    expect(figure.missing).toEqual(
      expect.arrayContaining(['#/circuit/elements/3/resistance', '#/circuit/elements/2/esr']),
    );
  });

  it('name it too where the pre-charge branch itself has no resistance', () => {
    const elements = sample.elements.map((each) =>
      each.id === 'r' ? { ...each, kind: 'fuse', role: undefined, resistance: 0 } : each,
    );
    const figure = factsOf({ elements: elements.map(withoutUndefined) }).rise.steadyRatio;
    expect(figure.reason).toBe('ideal-loop');
    expect(figure.missing).toContain('#/circuit/elements/3/resistance');
  });
});

describe('the figures of a fall', () => {
  it('take ln 10 time constants from 600 V to 60 V', () => {
    const discharge = {
      id: 'd',
      kind: 'resistor',
      role: 'discharge',
      nodes: ['lp', 'ln'],
      zone: 'vehicle',
      resistance: { nominal: 4000, tolerance: 0 },
    };
    const facts = factsOf({ elements: [...sample.elements, discharge] });
    const time = facts.falls.find(({ state }) => state.scenario === 'disconnect-open')?.worst?.timeToLimit;
    expect(time?.nominal).toBeCloseTo(4000 * 500e-6 * Math.LN10, 12);
  });
});

function isToleranced(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  return (
    'nominal' in value &&
    typeof value.nominal === 'number' &&
    'tolerance' in value &&
    typeof value.tolerance === 'number'
  );
}

function withoutUndefined(element: object): object {
  return Object.fromEntries(Object.entries(element).filter(([, value]) => value !== undefined));
}
