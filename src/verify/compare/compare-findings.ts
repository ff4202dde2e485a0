import type { Finding } from '../../rules/finding.js';
import type { Comparison, FindingMove } from './compare-schemas.js';

type Moves = Comparison['findings'];

/** Findings of two revisions, rule by rule, sorted by what became of them. Both have every rule, in the same order. */
export function compareFindings(before: readonly Finding[], after: readonly Finding[]): Moves {
  const moves: Moves = { resolved: [], new: [], changed: [], unchanged: [] };
  const known = new Map(before.map((finding) => [finding.rule, finding]));
  for (const finding of after) {
    const earlier = known.get(finding.rule);
    if (earlier !== undefined) moves[kindOf(earlier.status, finding.status)].push(moveOf(earlier, finding));
  }
  return moves;
}

function kindOf(before: Finding['status'], after: Finding['status']): keyof Moves {
  if (before === after) return 'unchanged';
  if (isOpen(before) === isOpen(after)) return 'changed';
  return isOpen(before) ? 'resolved' : 'new';
}

/** What somebody has to do something about. */
function isOpen(status: Finding['status']): boolean {
  return status === 'violated' || status === 'undetermined';
}

function moveOf(before: Finding, after: Finding): FindingMove {
  const side = ({ status, message }: Finding) => ({ status, message });
  return { rule: after.rule, title: after.title, weight: after.weight, before: side(before), after: side(after) };
}
