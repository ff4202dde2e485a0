import type { NoBound, ScalarForm, ScalarName, Scalars } from './scalar-form.js';

type Required<Names extends ScalarName> = Scalars & { readonly [Name in Names]-?: NonNullable<Scalars[Name]> };

const NO_VALUE_HELPS: NoBound = {
  outcome: 'no-value-helps',
  note: 'With these numbers no value of the part is good enough.',
};
const NO_VALUE_HURTS: NoBound = {
  outcome: 'no-value-hurts',
  note: 'With these numbers every value of the part is good enough.',
};
/** Where a formula comes to nothing over nothing. */
const SAYS_NOTHING: NoBound = { note: 'With these numbers the formula gives no bound.' };

/**
 * A closed form that is asked only once everything it needs is there, and whose answer is only given out where it is a
 * positive finite number. A bound at nothing or without limit is none: all values of the part lie on one side of it.
 */
export function closedForm<Names extends ScalarName>(
  bound: 'min' | 'max',
  form: {
    readonly required: readonly Names[];
    readonly optional?: readonly ScalarName[];
    readonly formula: string;
    readonly compute: (scalars: Required<Names>) => number;
    /** For a form that gives what happens and not what may be: the sentences for nothing and for without limit. */
    readonly notes?: { readonly nothing: string; readonly unlimited: string };
  },
): ScalarForm {
  const { required, optional = [], formula, compute, notes } = form;
  const raw = (scalars: Scalars): number => (hasAll(scalars, required) ? compute(scalars) : Number.NaN);
  return {
    required,
    optional,
    formula,
    compute: (scalars) => {
      const value = raw(scalars);
      return value > 0 && Number.isFinite(value) ? value : null;
    },
    withoutBound: (scalars) => {
      const value = raw(scalars);
      if (Number.isNaN(value)) return SAYS_NOTHING;
      if (notes !== undefined) return { note: value > 0 ? notes.unlimited : notes.nothing };
      return value > 0 === (bound === 'max') ? NO_VALUE_HURTS : NO_VALUE_HELPS;
    },
  };
}

function hasAll<Names extends ScalarName>(scalars: Scalars, names: readonly Names[]): scalars is Required<Names> {
  return names.every((name) => scalars[name] !== undefined);
}
