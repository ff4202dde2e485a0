import type { ScalarName, Scalars } from '../../limits/closed-forms/scalar-form.js';
import type { Limit } from '../../limits/limit.js';
import { quantityText } from '../../limits/quantity-text.js';
import { ENGINE_VERSION } from '../engine-version.js';
import type { LimitCell } from './cell-schemas.js';
import { parametersOf } from './read-scalars.js';
import { scalarsText } from './scalars-text.js';

/** One limit from scalars alone, with the formula and the numbers put in. */
export function limitCell(limit: Limit, scalars: Scalars): LimitCell {
  const { name, title, bound, rule, unit, sources } = limit.meta;
  const value = limit.fromScalars.compute(scalars);
  const result = value === null ? 'no bound' : quantityText(value, unit);
  return {
    name,
    title,
    bound,
    rule,
    unit,
    value,
    inputs: inputsOf(limit, scalars),
    basis: `${limit.fromScalars.formula}; with ${scalarsText(limit, scalars)}: ${result}.`,
    ...(value === null ? limit.fromScalars.withoutBound(scalars) : {}),
    sources: [...sources],
    engine: ENGINE_VERSION,
  };
}

/** What a query said, in SI, in the order in which parameters are listed. */
export function inputsOf(limit: Limit, scalars: Scalars): LimitCell['inputs'] {
  const given = parametersOf(limit).flatMap((name: ScalarName): Array<[string, number | number[]]> => {
    const value = scalars[name];
    if (value === undefined) return [];
    return [[name, typeof value === 'number' ? value : [...value]]];
  });
  return Object.fromEntries(given);
}
