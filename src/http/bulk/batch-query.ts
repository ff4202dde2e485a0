import { type Static, Type } from '@sinclair/typebox';
import { readQuantity } from '../../circuit/quantity.js';
import { stringEnum } from '../../circuit/schema/string-enum.js';
import { DETAILS } from '../../verify/batch/judge-item.js';
import type { ItemDefaults } from '../../verify/batch/read-item.js';
import { readRulesets } from '../../verify/read-rulesets.js';
import type { ProblemError } from '../problems/http-problem.js';
import { DECIMALS, decimalParameter } from './decimal-parameter.js';

/** Names for `?format=` and what they stand for. */
export const BATCH_FORMATS = {
  json: 'application/json',
  ndjson: 'application/x-ndjson',
  csv: 'text/csv',
  markdown: 'text/markdown',
} as const;

export const BatchQuerySchema = Type.Object(
  {
    detail: Type.Optional(
      stringEnum(DETAILS, {
        description:
          'What is wanted of each car: the verdict (the default), the whole report; or one summary of all cars.',
      }),
    ),
    format: Type.Optional(
      stringEnum(Object.keys(BATCH_FORMATS), {
        description:
          'The form of the answer; wins over `Accept`. Where neither is stated it is that of the body. `markdown` is for the summary only, `ndjson` for all but the summary.',
      }),
    ),
    ruleset: Type.Optional(Type.String({ description: 'For every item that names none; a table’s rows never do.' })),
    meterResistance: Type.Optional(
      Type.String({ description: 'Of the organiser’s energy meter, for every item without an `event` of its own.' }),
    ),
    decimal: decimalParameter,
  },
  { additionalProperties: false },
);

export interface BatchQuery {
  readonly detail: (typeof DETAILS)[number];
  readonly defaults: ItemDefaults;
}

type Given = Readonly<Record<string, unknown>>;

/** The query of a batch that has no faults, `format` aside. */
export function readBatchQuery(query: unknown): BatchQuery {
  return readingOf(query as Given).query;
}

/** Every fault of the values in a batch's query, `format` aside. */
export function batchQueryFaults(query: Given): readonly ProblemError[] {
  return readingOf(query).errors;
}

function readingOf(query: Given): { readonly query: BatchQuery; readonly errors: readonly ProblemError[] } {
  const errors: ProblemError[] = [];
  const text = (name: keyof Static<typeof BatchQuerySchema>): string | undefined => {
    const given = query[name];
    if (given === undefined || typeof given === 'string') return given;
    errors.push({ parameter: name, code: 'repeated-item', detail: `\`${name}\` is given more than once.` });
    return undefined;
  };
  const oneOf = <W extends string>(name: 'detail' | 'decimal', words: readonly W[], otherwise: W): W => {
    const given = text(name);
    const word = words.find((one) => one === given);
    if (given === undefined || word !== undefined) return word ?? otherwise;
    const detail = `${JSON.stringify(given)} is not accepted for \`${name}\`.`;
    errors.push({ parameter: name, code: 'not-one-of', detail, accepted: words.join(', ') });
    return otherwise;
  };

  const detail = oneOf('detail', DETAILS, 'verdict');
  const decimal = oneOf('decimal', DECIMALS, 'point');
  const ruleset = text('ruleset');
  const book = ruleset === undefined ? undefined : readRulesets({ ruleset }, '#');
  if (book !== undefined && 'faults' in book) errors.push(...book.faults.map(inParameter('ruleset')));
  const meter = text('meterResistance');
  const ohms = meter === undefined ? undefined : readQuantity(asNumber(meter), 'positiveResistance');
  if (ohms !== undefined && !('value' in ohms)) errors.push(inParameter('meterResistance')(ohms));
  const event = ohms !== undefined && 'value' in ohms ? { event: { meterResistance: ohms.value, parameters: {} } } : {};
  return { query: { detail, defaults: { decimal, ...(ruleset === undefined ? {} : { ruleset }), ...event } }, errors };
}

/** All of a query is text; a bare number in it is meant as one. */
function asNumber(text: string): string | number {
  return /^\d+(?:\.\d+)?$/.test(text.trim()) ? Number(text) : text;
}

function inParameter(parameter: string) {
  return ({ detail, code, accepted }: { detail: string; code: string; accepted?: string }): ProblemError => ({
    parameter,
    detail,
    code,
    ...(accepted === undefined ? {} : { accepted }),
  });
}
