import type { Figure } from '../figure.js';

/** What nothing in the ranges lies beyond at one end, ±Infinity where that is without bound; undefined where nothing is known to bound it. */
export function outerEnd(figure: Figure, end: 'min' | 'max'): number | undefined {
  if (figure.reason !== undefined) return undefined;
  if (figure.bound !== 'proved' && (figure.gap?.[end] ?? null) === null) return undefined;
  return figure[end] ?? (end === 'max' ? Infinity : -Infinity);
}
