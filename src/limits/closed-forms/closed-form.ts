import type { ScalarForm, ScalarName, Scalars } from './scalar-form.js';

type Required<Names extends ScalarName> = Scalars & { readonly [Name in Names]-?: NonNullable<Scalars[Name]> };

/**
 * A closed form that is asked only once everything it needs is there, and whose answer is only given out where it is a
 * positive finite number.
 */
export function closedForm<Names extends ScalarName>(form: {
  readonly required: readonly Names[];
  readonly optional?: readonly ScalarName[];
  readonly formula: string;
  readonly compute: (scalars: Required<Names>) => number;
}): ScalarForm {
  const { required, optional = [], formula, compute } = form;
  return {
    required,
    optional,
    formula,
    compute: (scalars) => {
      if (!hasAll(scalars, required)) return null;
      const value = compute(scalars);
      return value > 0 && Number.isFinite(value) ? value : null;
    },
  };
}

function hasAll<Names extends ScalarName>(scalars: Scalars, names: readonly Names[]): scalars is Required<Names> {
  return names.every((name) => scalars[name] !== undefined);
}
