import { describe, expect, it } from 'vitest';
import { fadingSpan } from '../../src/transient/fading-span.js';

describe('fadingSpan', () => {
  it('is what the slowest mode takes to fade below 1 %, insulation left out', () => {
    // e^−5 = 0.67 %; 1e-6 /s is a leak of weeks.
    expect(fadingSpan([2, 0.5, 40])).toBe(10);
    expect(Math.exp(-0.5 * fadingSpan([0.5]))).toBeLessThan(0.01);
    expect(fadingSpan([0, 1e-6, 2])).toBe(2.5);
  });

  it('is nothing where nothing fades', () => {
    expect(fadingSpan([0, 1e-9])).toBe(0);
    expect(fadingSpan([])).toBe(0);
  });
});
