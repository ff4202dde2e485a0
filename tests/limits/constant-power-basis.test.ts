import { expect, it } from 'vitest';
import { createFacts } from '../../src/facts/create-facts.js';
import type { Element, Load, Toleranced } from '../../src/circuit/model.js';
import { computeLimits } from '../../src/limits/index.js';
import { exampleCases } from './example-cases.js';

const { facts } = exampleCases.find(({ id }) => id === 'sound-rear-pack')!;

interface Draw {
  readonly startsAbove: number;
  readonly power?: Toleranced;
  readonly resistance?: Toleranced;
}

/** The limits of the car with one load more. */
function limitsWith(draw: Draw) {
  const load: Load = {
    id: 'pump',
    kind: 'load',
    nodes: facts.circuit.link!,
    zone: 'vehicle',
    container: 'main',
    pointer: '#/circuit/elements/99',
    ...draw,
    stopsBelow: 0,
    activeIn: ['precharge'],
  };
  const elements: Element[] = [...facts.circuit.elements, load].sort((a, b) => (a.id < b.id ? -1 : 1));
  return computeLimits(createFacts({ ...facts.circuit, elements }, facts.conditions)).limits;
}

const exact = (nominal: number) => ({ min: nominal, nominal, max: nominal, toleranceStated: true });

/** The limit on a load of 0.1 W that draws from a voltage on. */
function basisFrom(startsAbove: number): { readonly basis: string; readonly value: number } {
  const limits = limitsWith({ power: exact(0.1), startsAbove });
  const { basis, value } = limits.find(({ name }) => name === 'constant-power-load-max')!;
  return { basis, value: value! };
}

it('the basis of the largest constant power names the voltage at which the load is hardest to feed', () => {
  // V·(U − V)/R at both ends of the way up, U = 360 V at least: 359 V² at 1 V against 0.95 · 0.05 · 360² = 6156 V² at 95 %.
  const early = basisFrom(0);
  const late = basisFrom(300);
  expect(early.basis).toContain('A load that draws from 1 V on must be fed there already');
  expect(late.basis).toContain('With the link at p·U the pre-charge resistor carries (1 − p)·U/R');
  // The other loads take their part of it, so the ratio is near that of the two formulas only.
  expect(late.value / early.value).toBeLessThan(6156 / 359);
  expect(late.value / early.value).toBeGreaterThan(6156 / 359 / 3);
  expect(late.basis).toContain('the lowest voltage U = 360 V');
  // A pack below 370 V never wakes it.
  expect(basisFrom(370).basis).toContain('the lowest voltage that wakes it U = 370 V');
});

it.each(['precharge-resistance-max-loads', 'precharge-resistance-max-setting'])(
  'the basis of %s tells a resistance worked back from the bound only where every load is one',
  (name) => {
    const basisOf = (draw: Draw) => limitsWith(draw).find((limit) => limit.name === name)!.basis;
    const plain = basisOf({ resistance: exact(1e6), startsAbove: 0 });
    const power = basisOf({ power: exact(0.1), startsAbove: 0 });
    const switched = basisOf({ resistance: exact(1e6), startsAbove: 300 });
    expect(plain).toMatch(/ acts as L = \d/);
    for (const basis of [power, switched]) {
      expect(basis).not.toContain('acts as L');
      expect(basis).toMatch(/found by computing the rise, .* it is [\d.]+ k?Ω/);
    }
    expect(power).toContain('takes P/V');
    expect(switched).not.toContain('P/V');
  },
);
