import type { Verdict } from '../../rules/finding.js';
import type { BatchCounts } from './batch-schemas.js';

/** How an item came out: the field of the counts that it belongs to. */
export type ItemOutcome = Exclude<keyof BatchCounts, 'count'>;

export const outcomeOf: Readonly<Record<Verdict, ItemOutcome>> = {
  'violation-found': 'violationFound',
  undetermined: 'undetermined',
  'no-violation-found': 'noViolationFound',
};

export function noCounts(): BatchCounts {
  return { count: 0, violationFound: 0, undetermined: 0, noViolationFound: 0, errors: 0 };
}

/** The counts with one item more. */
export function counted(counts: BatchCounts, outcome: ItemOutcome): BatchCounts {
  return { ...counts, count: counts.count + 1, [outcome]: counts[outcome] + 1 };
}
