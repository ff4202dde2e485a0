import { parallelResistance } from '../../limits/closed-forms/parallel-resistance.js';
import type { ScalarName, Scalars } from '../../limits/closed-forms/scalar-form.js';
import type { Limit } from '../../limits/limit.js';
import { quantityText } from '../../limits/quantity-text.js';
import { unitOf } from './cell-parameters.js';
import { parametersOf } from './read-scalars.js';

/** `loadResistance = 47 kΩ, threshold = 0.95`: what was put into a formula, in the order in which parameters are listed. */
export function scalarsText(limit: Limit, scalars: Scalars): string {
  return parametersOf(limit)
    .flatMap((name) => {
      const value = scalars[name];
      return value === undefined ? [] : [`${name} = ${valueText(name, value)}`];
    })
    .join(', ');
}

function valueText(name: ScalarName, value: number | readonly number[]): string {
  const unit = unitOf(name);
  if (typeof value === 'number') return quantityText(value, unit);
  const all = value.map((one) => quantityText(one, unit)).join(' ∥ ');
  return value.length < 2 ? all : `${all} = ${quantityText(parallelResistance(value), unit)}`;
}
