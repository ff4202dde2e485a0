import { describe, expect, it } from 'vitest';
import { expDividedDifference } from '../../src/transient/exp-divided-difference.js';
import { type Big, big, relativeError } from './big.js';
import { random } from './random.js';

/** Two roundings a level of the recursion, five levels, and the exponentials' own. */
const ROUNDING = 5e-15;

/** By the definition, with 64 digits: points apart by 1e-6 and five levels still leave 30. */
function byDefinition(points: readonly number[]): Big {
  if (points.length === 1) return big(points[0]!).exp();
  const spread = big(points.at(-1)!).minus(big(points[0]!));
  return byDefinition(points.slice(1))
    .minus(byDefinition(points.slice(0, -1)))
    .div(spread);
}

describe('expDividedDifference', () => {
  it('of one point is the exponential', () => {
    expect(expDividedDifference([-1.25])).toBe(Math.exp(-1.25));
  });

  it.each([
    [[-3, -3], 1],
    [[-3, -3, -3], 2],
    [[-3, -3, -3, -3], 6],
    [[0, 0, 0, 0, 0], 24],
  ])('of a point repeated is exp/k! (%j)', (points, factorial) => {
    // Source: the derivative form of divided differences, C. de Boor (2005).
    const expected = Math.exp(points[0]!) / factorial;
    expect(Math.abs(expDividedDifference(points) / expected - 1)).toBeLessThan(ROUNDING);
  });

  it('agrees with its definition in 64 digits, for points spread over twelve decades', () => {
    const next = random(1);
    let worst = 0;
    for (let round = 0; round < 80; round += 1) {
      const count = 2 + (round % 4);
      const points = Array.from({ length: count }, () => -(10 ** (-6 + 9 * next()))).sort((a, b) => a - b);
      worst = Math.max(worst, relativeError(expDividedDifference(points), byDefinition(points)));
    }
    expect(worst).toBeLessThan(ROUNDING);
  });

  it('keeps its digits where points nearly coincide, at the edge of the series too', () => {
    const next = random(2);
    let worst = 0;
    for (let round = 0; round < 80; round += 1) {
      const gap = round % 2 === 0 ? 10 ** (-6 + 6 * next()) : 1.4 + 0.2 * next();
      const low = -20 * next();
      const points = [low, low + gap / 3, low + gap / 2, low + gap];
      worst = Math.max(worst, relativeError(expDividedDifference(points), byDefinition(points)));
    }
    expect(worst).toBeLessThan(ROUNDING);
  });

  it('does not depend on the order of the points', () => {
    expect(expDividedDifference([-1, -7, -0.1, -300])).toBe(expDividedDifference([-300, -0.1, -1, -7]));
  });

  it('vanishes without a NaN for points far below zero', () => {
    expect(expDividedDifference([-1e9, -2e9, -1e9])).toBe(0);
  });
});
