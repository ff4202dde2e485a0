import { describe, expect, it } from 'vitest';
import { type Span, worstOverRange } from '../../src/transient/worst-over-range.js';

/** x·(1 − x) over a span, each factor at its own most: loose, and exact for a single value. */
const loose = ({ lowest, highest }: Span): number => highest * (1 - lowest);

describe('the worst over a range', () => {
  it('is bounded to a thousandth of what a single value does, inside the range', () => {
    expect(loose({ lowest: 0.1, highest: 0.8 })).toBeGreaterThan(0.7);
    const bound = worstOverRange({ lowest: 0.1, highest: 0.8 }, loose, 1);
    expect(bound).toBeGreaterThanOrEqual(0.25);
    // Near its summit the bound of a part narrows in proportion to its width: 64 halvings leave a little more than asked for.
    expect(bound).toBeLessThan(0.25 * 1.05);
  });

  it('is the end of what goes one way', () => {
    const rising = ({ highest }: Span): number => highest ** 2;
    expect(worstOverRange({ lowest: 1, highest: 3 }, rising, 1)).toBe(9);
    const falling = ({ lowest }: Span): number => lowest;
    expect(worstOverRange({ lowest: 1, highest: 3 }, falling, -1)).toBe(1);
  });

  it('is without bound where a part is, and not where only the whole seems to be', () => {
    const pole = ({ lowest, highest }: Span): number => (lowest <= 2 && highest >= 2 ? Infinity : 1);
    expect(worstOverRange({ lowest: 1, highest: 3.1 }, pole, 1)).toBe(Infinity);
    const wide = ({ lowest, highest }: Span): number => (highest - lowest > 0.5 ? Infinity : highest);
    expect(worstOverRange({ lowest: 1, highest: 3 }, wide, 1)).toBeCloseTo(3, 9);
  });
});
