import { describe, expect, it } from 'vitest';
import { limitOf, q } from './plain-car.js';

/** A load that wakes during the rise: nothing is proved of where the link ends with it, once the parts have ranges. */
const limitAt = (tolerance: number) => {
  const fan = { kind: 'load', zone: 'vehicle', nodes: ['lp', 'ln'], startsAbove: 300, stopsBelow: 100 };
  const parts = { fan: { ...fan, current: q(0.05, tolerance) }, 'pre-resistor': { resistance: q(1000, tolerance) } };
  return limitOf({ parts }, 'precharge-resistance-max-loads', 'pre-resistor');
};

describe('a bound on a part', () => {
  it('says that it keeps a margin where the worst case is searched for', () => {
    const { note, nominal, value } = limitAt(0.1);
    expect(note).toMatch(/^The worst case over the tolerances is searched for, so the bound keeps a margin/);
    // Without the margin: 600·(1 − 0.95) V are left for R·(i + U/R_load) with i 10 % up and U = 570 V on 47 kΩ; Ohm's law.
    const ohmic = 30 / (0.055 + 570 / 47_000);
    expect(value).toBeLessThan(ohmic);
    expect(nominal).toBeCloseTo(value! / 1.1, 9);
  });

  it('says nothing of it where every value is exact', () => {
    const { note, value } = limitAt(0);
    expect(note).toBeUndefined();
    // 1e-9: the bound is found to 1e-10 relative.
    expect(value! / (30 / (0.05 + 570 / 47_000))).toBeCloseTo(1, 9);
  });
});
