import type { Verified } from './submission.js';

export interface Mistake {
  readonly title: string;
  readonly cars: readonly string[];
}

/** Rules violated, advice and consequences of another mistake left out, the commonest first; equal ones in order of title. */
export function commonestMistakes(verified: readonly Verified[]): Mistake[] {
  const carsByTitle = new Map<string, string[]>();
  for (const { submission, report } of verified) {
    for (const { title, status, weight, causedBy } of report.findings) {
      if (status !== 'violated' || weight !== 'rule' || (causedBy ?? []).length > 0) continue;
      carsByTitle.set(title, [...(carsByTitle.get(title) ?? []), submission.request.circuit.title]);
    }
  }
  return Array.from(carsByTitle, ([title, cars]) => ({ title, cars })).sort(
    (a, b) => b.cars.length - a.cars.length || (a.title < b.title ? -1 : 1),
  );
}
