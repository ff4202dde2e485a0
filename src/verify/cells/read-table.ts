import { quoted, quotedList } from '../../circuit/quoted.js';
import type { ScalarName, Scalars } from '../../limits/closed-forms/scalar-form.js';
import type { Limit } from '../../limits/limit.js';
import { cellParameters } from './cell-parameters.js';
import { limitByName, noSuchLimit } from './limit-by-name.js';
import type { Decimal, ParameterFault, Query } from './parameter-fault.js';
import { parametersOf, readScalars } from './read-scalars.js';
import { readScalar, type ScalarReading } from './read-scalar.js';
import { splitList } from './split-list.js';
import { tableCapacities } from './table-capacities.js';

/** One limit to be computed over a list of values of one parameter. */
export interface TableQuestion {
  readonly limit: Limit;
  readonly over: ScalarName;
  /** The other parameters. */
  readonly scalars: Scalars;
  /** In the order given; a value that cannot be read stands as its fault. */
  readonly values: readonly ScalarReading[];
}

/** Parameters of a table that are no scalars. */
const OWN = ['name', 'over', 'values'] as const;

/**
 * Reads the query of a table. Where the values alone are faulty the question is still given, and the caller decides whether
 * the faults stand in their rows.
 */
export function readTable(
  query: Query,
  decimal: Decimal,
  others: readonly string[],
): { readonly question?: TableQuestion; readonly faults: readonly ParameterFault[] } {
  const { name, over, values, ...rest } = query;
  const faults: ParameterFault[] = [];
  const limitName = word('name', name, faults);
  const limit = limitName === undefined ? undefined : limitByName(limitName);
  if (limitName !== undefined && limit === undefined) {
    faults.push({ parameter: 'name', code: 'not-one-of', detail: noSuchLimit(limitName) });
  }
  const overName = word('over', over, faults);
  const list = readList(values, faults);
  // Without the limit nothing is known of the parameters.
  if (limit === undefined) return { faults };
  const known = parametersOf(limit);
  const varied = known.find((one) => one === overName);
  if (overName !== undefined && varied === undefined) {
    const detail = `\`${limit.meta.name}\` has no parameter ${quoted(overName)}.`;
    faults.push({ parameter: 'over', code: 'not-one-of', detail, accepted: quotedList(known) });
  }
  const reading = readScalars({
    limit,
    query: rest,
    decimal,
    others: [...OWN, ...others],
    ...(varied === undefined ? {} : { without: varied }),
  });
  if ('faults' in reading) faults.push(...reading.faults);
  const items = list === undefined ? undefined : itemsOf(list, decimal, faults);
  if (varied === undefined || items === undefined || faults.length > 0 || 'faults' in reading) return { faults };
  const read = items.map((item) => readScalar(item, cellParameters[varied].quantity, decimal));
  const unreadable = read.flatMap((one) => ('value' in one ? [] : [{ parameter: 'values', ...one }]));
  return { question: { limit, over: varied, scalars: reading.scalars, values: read }, faults: unreadable };
}

function word(parameter: string, given: unknown, faults: ParameterFault[]): string | undefined {
  if (typeof given === 'string' && given !== '') return given;
  const absent = given === undefined || given === '';
  faults.push({
    parameter,
    code: absent ? 'missing-parameter' : 'repeated-item',
    detail: absent ? `\`${parameter}\` is missing.` : `\`${parameter}\` is given more than once.`,
  });
  return undefined;
}

function readList(given: unknown, faults: ParameterFault[]): readonly string[] | undefined {
  if (given !== undefined) return [given].flat().map(String);
  faults.push({ parameter: 'values', code: 'missing-parameter', detail: '`values` is missing.' });
  return undefined;
}

function itemsOf(texts: readonly string[], decimal: Decimal, faults: ParameterFault[]): readonly string[] | undefined {
  const split = splitList(texts, decimal);
  const most = tableCapacities.limitTableValues;
  if (!('items' in split)) faults.push({ parameter: 'values', ...split });
  else if (split.items.length > most) {
    const detail = `\`values\` holds ${split.items.length} values; at most ${most} are allowed.`;
    faults.push({ parameter: 'values', code: 'wrong-length', detail });
  } else return split.items;
  return undefined;
}
