import type { Compared } from './compare-revisions.js';

/** Where a comparison differs from the calculation by hand that the revision carries; empty: nowhere. */
export function surprisingRevisions(compared: readonly Compared[]): string[] {
  return compared.flatMap(({ car, first, expected, comparison: { verdict, findings } }) => {
    const list = (rules: readonly string[]): string => [...rules].sort().join(', ') || 'nothing';
    const pairs = [
      ['verdict of the first', first, verdict.before],
      ['verdict', expected.verdict, verdict.after],
      ['resolved', list(expected.resolved), list(findings.resolved.map(({ rule }) => rule))],
      ['new', list(expected.new), list(findings.new.map(({ rule }) => rule))],
    ] as const;
    return pairs
      .filter(([, wanted, actual]) => wanted !== actual)
      .map(([what, wanted, actual]) => `${car}, second revision: ${what}: expected ${wanted}, got ${actual}`);
  });
}
