import { acceptedForm } from '../../circuit/accepted-form.js';
import { boundedQuantity } from '../../circuit/bounded-quantities.js';
import { suggestionEnd } from '../../circuit/closest.js';
import { quoted } from '../../circuit/quoted.js';
import { type ScalarName, type Scalars, scalarNames } from '../../limits/closed-forms/scalar-form.js';
import type { Limit } from '../../limits/limit.js';
import { cellParameters } from './cell-parameters.js';
import type { Decimal, ParameterFault, Query } from './parameter-fault.js';
import { readScalar } from './read-scalar.js';
import { splitList } from './split-list.js';

export interface ScalarsQuestion {
  readonly limit: Limit;
  /** Without what the caller has read already. */
  readonly query: Query;
  readonly decimal: Decimal;
  /** Parameters of the call that are no scalars, for the list of what is accepted. */
  readonly others: readonly string[];
  /** The parameter that takes its values from elsewhere, and so is not wanted here. */
  readonly without?: ScalarName;
}

/** The parameters that a limit reads, in the order in which they are listed. */
export function parametersOf({ fromScalars: { required, optional } }: Limit): readonly ScalarName[] {
  return scalarNames.filter((name) => required.includes(name) || optional.includes(name));
}

/**
 * The scalars of a query, in SI, loads in rising order so that their order makes no difference; or every fault: names that the
 * limit does not read, values that cannot be read, and what is missing.
 */
export function readScalars(
  question: ScalarsQuestion,
): { readonly scalars: Scalars } | { readonly faults: readonly ParameterFault[] } {
  const { limit, query, decimal, without } = question;
  const names = parametersOf(limit).filter((name) => name !== without);
  const faults = unknownNames(question, names);
  const scalars: Partial<Record<ScalarName, number | readonly number[]>> = {};
  for (const name of names) {
    if (!Object.hasOwn(query, name)) {
      if (limit.fromScalars.required.includes(name)) faults.push(missing(name));
      continue;
    }
    const reading = name === 'loadResistance' ? loads(query[name], decimal) : single(name, query[name], decimal);
    if ('faults' in reading) faults.push(...reading.faults);
    else scalars[name] = reading.value;
  }
  // Each name holds what its reader gave it: a list for loads, a number for all else.
  return faults.length > 0 ? { faults } : { scalars: scalars as Scalars };
}

type Read<T> = { readonly value: T } | { readonly faults: readonly ParameterFault[] };

function single(name: ScalarName, given: unknown, decimal: Decimal): Read<number> {
  if (typeof given !== 'string') {
    return { faults: [{ parameter: name, code: 'repeated-item', detail: `\`${name}\` is given more than once.` }] };
  }
  const reading = readScalar(given, cellParameters[name].quantity, decimal);
  return 'value' in reading ? reading : { faults: [{ parameter: name, ...reading }] };
}

function loads(given: unknown, decimal: Decimal): Read<readonly number[]> {
  const parameter = 'loadResistance';
  const split = splitList([given].flat().map(String), decimal);
  if (!('items' in split)) return { faults: [{ parameter, ...split }] };
  const readings = split.items.map((item) => readScalar(item, cellParameters[parameter].quantity, decimal));
  const faults = readings.flatMap((reading) => ('value' in reading ? [] : [{ parameter, ...reading }]));
  if (faults.length > 0) return { faults };
  return { value: readings.flatMap((reading) => ('value' in reading ? [reading.value] : [])).sort((a, b) => a - b) };
}

function missing(name: ScalarName): ParameterFault {
  const accepted = acceptedForm(boundedQuantity(cellParameters[name].quantity));
  return { parameter: name, code: 'missing-parameter', detail: `\`${name}\` is missing.`, accepted };
}

function unknownNames(
  { limit, query, others, without }: ScalarsQuestion,
  names: readonly ScalarName[],
): ParameterFault[] {
  const accepted = [...names, ...others];
  const fault = (name: string) =>
    name === without
      ? { code: 'repeated-item', detail: `\`${name}\` varies, so it has its values from \`values\` alone.` }
      : {
          code: 'unknown-parameter',
          detail: `${quoted(name)} is not a parameter of \`${limit.meta.name}\`${suggestionEnd(name, accepted)}`,
        };
  return Object.keys(query)
    .filter((name) => !names.some((known) => known === name))
    .sort()
    .map((name) => ({ parameter: name, ...fault(name), accepted: accepted.join(', ') }));
}
