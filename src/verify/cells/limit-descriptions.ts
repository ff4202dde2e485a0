import type { Static } from '@sinclair/typebox';
import { acceptedForm } from '../../circuit/accepted-form.js';
import { boundedQuantity } from '../../circuit/bounded-quantities.js';
import type { Limit } from '../../limits/limit.js';
import { limits } from '../../limits/limits.js';
import { cellParameters, unitOf } from './cell-parameters.js';
import type { LimitDescriptionSchema } from './cell-schemas.js';
import { parametersOf } from './read-scalars.js';

type LimitDescription = Static<typeof LimitDescriptionSchema>;

/** Every limit with the parameters that a cell takes, in the order in which they are answered. */
export function limitDescriptions(): LimitDescription[] {
  return limits.map((limit) => ({
    name: limit.meta.name,
    title: limit.meta.title,
    unit: limit.meta.unit,
    bound: limit.meta.bound,
    rule: limit.meta.rule,
    formula: limit.meta.formula,
    scalarFormula: limit.fromScalars.formula,
    parameters: parameters(limit),
    sources: [...limit.meta.sources],
    example: exampleAddress(limit),
  }));
}

function parameters(limit: Limit): LimitDescription['parameters'] {
  return parametersOf(limit).map((name) => {
    const { quantity, description, example } = cellParameters[name];
    return {
      name,
      required: limit.fromScalars.required.includes(name),
      repeatable: name === 'loadResistance',
      unit: unitOf(name),
      description,
      accepted: acceptedForm(boundedQuantity(quantity)),
      example,
    };
  });
}

/** With what is required and nothing else, as the bare number. */
function exampleAddress({ meta, fromScalars }: Limit): string {
  const query = fromScalars.required.map((name) => `${name}=${cellParameters[name].example}`);
  return `/v1/limits/${meta.name}?${[...query, 'format=text'].join('&')}`;
}
