import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCircuit } from '../../../src/circuit/index.js';
import type { Element, ResolvedCircuit, Toleranced } from '../../../src/circuit/model.js';
import { createFacts } from '../../../src/facts/create-facts.js';
import type { Facts, Rise } from '../../../src/facts/facts.js';
import type { Figure } from '../../../src/facts/figure.js';
import { rulesetById } from '../../../src/rules/index.js';
import { random } from '../../transient/random.js';

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
  return factsOfResolved(resolved(circuit));
}

function factsOfResolved(circuit: ResolvedCircuit): Facts {
  const ruleset = rulesetById('student-ev-2020');
  if (ruleset === undefined) throw new Error('the ruleset is gone');
  return createFacts(circuit, ruleset.conditions);
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

  it.each([
    'sound-rear-pack',
    'sound-two-inverters',
    'sound-negative-precharge',
    'sound-two-containers',
    'disconnect-bypassed',
  ])('of %s hold every circuit inside the ranges (seeded trials)', (id) => {
    const circuit = resolved(wire(id));
    const whole = everyFigure(factsOfResolved(circuit));
    const next = random(20);
    for (let trial = 0; trial < 12; trial += 1) {
      // Corners and points inside by turns.
      const one = everyFigure(
        factsOfResolved(somewhere(circuit, () => (trial % 2 === 0 ? Math.round(next()) : next()))),
      );
      for (const [name, { min, max, gap }] of whole) {
        // Rounding only: the ranges are the same numbers reached by another way.
        const slack = 1e-9 * Math.abs(max ?? 0);
        const figure = one.get(name);
        if (gap?.min !== null) expect(figure?.min ?? 0, name).toBeGreaterThanOrEqual((min ?? 0) - slack);
        if (gap?.max !== null) expect(figure?.max ?? 0, name).toBeLessThanOrEqual((max ?? 0) + slack);
      }
    }
  });

  // Two packs in series act as one; a way past the disconnect makes a bridge of the link; neither leaves a figure that a rule reads unbounded.
  it.each(['sound-two-containers', 'disconnect-bypassed'])('of %s are bounded where they are not proved', (id) => {
    for (const [name, { gap }] of everyFigure(factsOf(wire(id)))) {
      if (id === 'disconnect-bypassed' && /timeConstant|currentAtSecondClosure/.test(name)) continue;
      expect(gap?.max, name).not.toBeNull();
    }
  });

  it('of two packs in series are those of one pack with their sum', () => {
    const packs = (volts: readonly [number, number][]) => ({
      elements: [
        ...with47k(1000).elements.filter(({ id }) => id !== 'pack'),
        ...volts.map(([min, max], k) => ({
          id: `pack${k.toString()}`,
          kind: 'accumulator',
          nodes: [k === 0 ? 'bp' : 'bm', k === volts.length - 1 ? 'bn' : 'bm'],
          zone: 'container',
          voltage: { min, nominal: max, max },
        })),
      ],
    });
    const [one, two] = [
      packs([[400, 600]]),
      packs([
        [150, 200],
        [250, 400],
      ]),
    ].map((circuit) => factsOf(circuit).rise);
    for (const name of [
      'steadyRatio',
      'timeToThreshold',
      'peakCurrent',
      'resistorEnergy',
      'resistorPeakPower',
    ] as const) {
      const [single, series] = [one![name], two![name]];
      expect(series.bound, name).toBe('proved');
      // Rounding.
      for (const end of ['min', 'max'] as const) expect((series[end] ?? 0) / (single[end] ?? 1)).toBeCloseTo(1, 10);
    }
  });

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

/** Every figure of the rise, and of each fall the heat, power and times that a rule reads. */
function everyFigure({ rise, falls }: Facts): ReadonlyMap<string, Figure> {
  const found = new Map<string, Figure>(names.map((name) => [name, rise[name]]));
  found.set('attempts', rise.attemptsPeakTemperature(3, 5));
  for (const fall of falls) {
    for (const { id, timeToLimit, voltageAtLimit } of fall.voltages) {
      found.set(`${fall.state.id} ${id} time`, timeToLimit);
      found.set(`${fall.state.id} ${id} voltage`, voltageAtLimit);
    }
    for (const [id, figure] of fall.resistorEnergy) found.set(`${fall.state.id} ${id} energy`, figure);
    for (const [id, figure] of fall.continuousPower) {
      found.set(`${fall.state.id} ${id} power`, figure);
      found.set(`${fall.state.id} ${id} repeats`, fall.repeatsPeakTemperature(id, 3, 15));
    }
  }
  return found;
}

/** The circuit with every part of a stated tolerance somewhere in its range, exact there. */
function somewhere(circuit: ResolvedCircuit, share: () => number): ResolvedCircuit {
  const elements = circuit.elements.map((element) => {
    const drawn = Object.entries(element).map(([name, value]) => [
      name,
      isToleranced(value) ? drawnOf(value, share()) : value,
    ]);
    return Object.fromEntries(drawn) as Element;
  });
  return { ...circuit, elements };
}

function drawnOf({ min, max }: Toleranced, share: number): Toleranced {
  const value = min + (max - min) * share;
  return { min: value, nominal: value, max: value, toleranceStated: true };
}

function isToleranced(value: unknown): value is Toleranced {
  return typeof value === 'object' && value !== null && 'toleranceStated' in value && value.toleranceStated === true;
}

function withoutUndefined(element: object): object {
  return Object.fromEntries(Object.entries(element).filter(([, value]) => value !== undefined));
}
