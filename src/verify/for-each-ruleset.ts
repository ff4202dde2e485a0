import type { Case } from './prepare.js';
import type { Request } from './read-request.js';

/** The answer for the one ruleset of a request, or `{reports}` with one answer for each of several, in their order. */
export function forEachRuleset<A>(
  request: Request,
  answer: (subject: Case) => A,
): A | { readonly reports: readonly A[] } {
  const { circuit, event, rulesets, several } = request;
  const answers = rulesets.map((ruleset) => answer({ circuit, ruleset, ...(event === undefined ? {} : { event }) }));
  const [only] = answers;
  return several || only === undefined ? { reports: answers } : only;
}
