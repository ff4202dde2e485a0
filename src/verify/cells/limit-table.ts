import type { Scalars } from '../../limits/closed-forms/scalar-form.js';
import type { Limit } from '../../limits/limit.js';
import { ENGINE_VERSION } from '../engine-version.js';
import { unitOf } from './cell-parameters.js';
import type { LimitTable } from './cell-schemas.js';
import { inputsOf } from './limit-cell.js';
import type { TableQuestion } from './read-table.js';

/** One limit over several values of one parameter, a row a value. */
export function limitTable({ limit, over, scalars, values }: TableQuestion): LimitTable {
  const { name, title, bound, rule, unit, sources } = limit.meta;
  const at = (value: number): Scalars => ({ ...scalars, [over]: over === 'loadResistance' ? [value] : value });
  return {
    name,
    title,
    bound,
    rule,
    unit,
    over,
    overUnit: unitOf(over),
    inputs: inputsOf(limit, scalars),
    formula: limit.fromScalars.formula,
    rows: values.map((reading) =>
      'value' in reading
        ? rowOf(limit, reading.value, at(reading.value))
        : { input: null, value: null, error: reading.detail },
    ),
    sources: [...sources],
    engine: ENGINE_VERSION,
  };
}

function rowOf({ fromScalars }: Limit, input: number, scalars: Scalars): LimitTable['rows'][number] {
  const value = fromScalars.compute(scalars);
  return { input, value, ...(value === null ? fromScalars.withoutBound(scalars) : {}) };
}
