import { showQuantity, verdictWords } from '../render/index.js';
import type { Comparison, LimitMove } from '../verify/compare/compare-schemas.js';
import { asManyAsFit } from './as-many-as-fit.js';

/** Two lines on a second revision: what became of the findings, and the limits whose margin moved most. */
export function revisionLines({ verdict, findings, limits }: Comparison, width: number): string[] {
  const words = `${verdictWords[verdict.before].short} → ${verdictWords[verdict.after].short}`;
  const rules = (moves: ReadonlyArray<{ readonly rule: string }>): string[] => moves.map(({ rule }) => rule);
  const fresh = findings.new.length === 0 ? 'Nothing new' : `New: ${rules(findings.new).join(', ')}`;
  const first = asManyAsFit(`${words}. ${fresh}. Resolved: `, rules(findings.resolved), width);
  const moved = limits.flatMap(marginMove).sort((a, b) => b.by - a.by);
  if (moved.length === 0) return [first, 'No margin moved.'];
  const names = moved.map(({ name, from, to }) => `${name} ${showQuantity(from, '')} → ${showQuantity(to, '')}`);
  return [first, asManyAsFit('Margins: ', names, width)];
}

function marginMove({ name, fields }: LimitMove) {
  const { from, to } = fields.find(({ field }) => field === '/margin') ?? {};
  return typeof from === 'number' && typeof to === 'number' ? [{ name, from, to, by: Math.abs(to - from) }] : [];
}
