import type { Verdict } from '../rules/finding.js';

/** How a verdict reads to a person. None of them is a permission, and none says that a car is fit for anything. */
export const verdictWords: Readonly<Record<Verdict, { readonly short: string; readonly sentence: string }>> = {
  'violation-found': {
    short: 'violation found',
    sentence: 'The circuit as described breaks at least one rule.',
  },
  undetermined: {
    short: 'undetermined',
    sentence: 'No rule is known to be broken, but the description leaves at least one open.',
  },
  'no-violation-found': {
    short: 'no violation found',
    sentence: 'No broken rule was found in the circuit as described. That is no permission of any kind.',
  },
};
