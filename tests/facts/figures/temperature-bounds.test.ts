import { describe, expect, it } from 'vitest';
import { coolestPossible, hottestPossible } from '../../../src/facts/figures/temperature-bounds.js';
import { random } from '../../transient/random.js';

/** K/W, J/K, °C: a time constant of 20 s. */
const thermal = { ambient: 30, resistance: 2, capacitance: 10 };
const TAU = 20;

/** W in each of so many equal parts of a pulse; the rest of the interval carries nothing. */
interface Steps {
  readonly watts: readonly number[];
  readonly part: number;
}

/** The hottest of a row of pulses, by the recursion of a mass under constant power from step to step: exact at each step's ends. */
function hottest({ watts, part }: Steps, count: number, interval: number): number {
  let rise = 0;
  let most = 0;
  const decay = Math.exp(-part / TAU);
  for (let pulse = 0; pulse < count; pulse += 1) {
    for (const power of watts) {
      rise = rise * decay + power * thermal.resistance * (1 - decay);
      most = Math.max(most, rise);
    }
    rise *= Math.exp(-(interval - watts.length * part) / TAU);
  }
  return thermal.ambient + most;
}

describe('the bounds of a temperature', () => {
  it('hold for pulses of any course', () => {
    const next = random(311);
    let closest = Infinity;
    for (let round = 0; round < 400; round += 1) {
      const part = 10 ** (2 * next() - 2);
      const quiet = Math.floor(next() * 6);
      const watts = Array.from({ length: 12 }, (_, k) => (k < quiet ? 0 : 500 * next()));
      const length = watts.length * part;
      const interval = length * (1 + (round % 2) * 3 * next());
      const count = 1 + Math.floor(next() * 30);
      const energy = watts.reduce((sum, power) => sum + power * part, 0);
      const found = hottest({ watts, part }, count, interval);
      const power = Math.max(...watts);
      const row = { count, interval };
      const most = hottestPossible(thermal, { energy, power, steady: 0 }, row);
      // Any share of it may be taken as steady.
      const steady = power * next();
      const beyond = watts.reduce((sum, each) => sum + Math.max(0, each - steady) * part, 0);
      expect(found).toBeLessThanOrEqual(hottestPossible(thermal, { energy: beyond, power, steady }, row) * (1 + 1e-12));
      const least = coolestPossible(thermal, energy, length, row);
      // Rounding only.
      expect(found).toBeLessThanOrEqual(most * (1 + 1e-12));
      expect(found).toBeGreaterThanOrEqual(least * (1 - 1e-12));
      closest = Math.min(closest, (most - 30) / (found - 30));
    }
    // Not a bound by far: some course comes near.
    expect(closest).toBeLessThan(1.1);
  });

  it('are met by the course that they name: all of the power, at the end', () => {
    // 100 W for 5 s: 200 K · (1 − e^(−1/4)), the charging law of a textbook.
    const most = hottestPossible(thermal, { energy: 500, power: 100, steady: 0 }, { count: 1, interval: Infinity });
    expect(most).toBeCloseTo(30 + 200 * (1 - Math.exp(-0.25)), 12);
    expect(
      hottestPossible(thermal, { energy: Infinity, power: 100, steady: 0 }, { count: 1, interval: Infinity }),
    ).toBe(230);
    // 500 J at once into 10 J/K; then twice more, each 20 s after the other.
    const heat = { energy: 500, power: Infinity, steady: 0 };
    expect(hottestPossible(thermal, heat, { count: 1, interval: Infinity })).toBe(80);
    const three = hottestPossible(thermal, heat, { count: 3, interval: TAU });
    expect(three).toBeCloseTo(30 + 50 * (1 + Math.exp(-1) + Math.exp(-2)), 12);
    expect(hottestPossible(thermal, heat, { count: 3, interval: 0 })).toBe(180);
  });

  it('are none where neither heat nor power is bounded, and the ambient where there is none', () => {
    const row = { count: 3, interval: 5 };
    expect(hottestPossible(thermal, { energy: Infinity, power: Infinity, steady: 0 }, row)).toBe(Infinity);
    expect(hottestPossible(thermal, { energy: 0, power: Infinity, steady: 0 }, row)).toBe(30);
    expect(coolestPossible(thermal, 500, Infinity, row)).toBe(30);
  });

  it('of a row without end are the limit of longer and longer ones', () => {
    const most = { energy: 500, power: 1000, steady: 0 };
    const long = hottestPossible(thermal, most, { count: 1000, interval: 3 });
    expect(hottestPossible(thermal, most, { count: Infinity, interval: 3 })).toBeCloseTo(long, 9);
  });
});
