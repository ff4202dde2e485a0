import { decidesLoad } from '../facts/figures/not-computable.js';

/** What the fields are called on which an open finding hangs: a load that finds no state is open for one that may be stated. */
export function missingLabel(missing: readonly string[]): 'Hangs on' | 'Not stated' {
  return missing.some(decidesLoad) ? 'Hangs on' : 'Not stated';
}
