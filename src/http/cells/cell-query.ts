import { type TSchema, Type } from '@sinclair/typebox';
import { stringEnum } from '../../circuit/schema/string-enum.js';
import { scalarNames } from '../../limits/closed-forms/scalar-form.js';
import { cellParameters } from '../../verify/cells/cell-parameters.js';
import type { Decimal, ParameterFault, Query } from '../../verify/cells/parameter-fault.js';
import { httpCapacities } from '../http-capacities.js';
import { HttpProblem } from '../problems/http-problem.js';
import { unknownFormat } from '../problems/unknown-format.js';
import { CELL_FORMATS } from './cell-formats.js';

const DECIMALS = ['point', 'comma'] as const satisfies readonly Decimal[];
const ON_ERROR = ['problem', 'text'] as const;

/** Parameters of every cell and table that are no quantities. */
export const COMMON_PARAMETERS = ['format', 'decimal', 'onError'] as const;

const common: Readonly<Record<(typeof COMMON_PARAMETERS)[number], TSchema>> = {
  format: Type.Optional(
    stringEnum(Object.keys(CELL_FORMATS), {
      description:
        'The form of the answer; wins over `Accept`. One that there is not is a fault of the query (400), named with all others.',
    }),
  ),
  decimal: Type.Optional(
    stringEnum(DECIMALS, {
      description:
        'What stands before the decimals of numbers, in text and CSV. With `comma`, numbers in the query may have a comma too, and semicolons separate lists.',
    }),
  ),
  onError: Type.Optional(
    stringEnum(ON_ERROR, {
      description:
        'With `text` a fault of the query is answered as 200 with `ERROR: …`, for cells that hide other answers.',
    }),
  ),
};

const quantities: Readonly<Record<string, TSchema>> = Object.fromEntries(
  scalarNames.map((name) => {
    const { description, example } = cellParameters[name];
    const one = Type.String({ description, examples: [example] });
    const several = Type.Array(Type.String(), { description, examples: [[example]] });
    return [name, Type.Optional(name === 'loadResistance' ? several : one)];
  }),
);

/** The query of a cell, or of a table that has some parameters before them. */
export function cellQuerySchema(own: Readonly<Record<string, TSchema>> = {}): TSchema {
  return Type.Object({ ...own, ...quantities, ...common }, { additionalProperties: false });
}

export interface CommonQuery {
  readonly decimal: Decimal;
  readonly errorsAsText: boolean;
  /** What is left of the query. */
  readonly rest: Query;
  readonly faults: readonly ParameterFault[];
}

/** The common part of a query. The form that `format` asks for has been settled before; here it is a fault where it is none. */
export function readCommonQuery(query: unknown): CommonQuery {
  const { format, decimal, onError, ...rest } = query as Query;
  const isKnown = format === undefined || Object.keys(CELL_FORMATS).some((name) => name === format);
  const faults = isKnown ? [] : [unknownFormat(format, CELL_FORMATS)];
  return {
    decimal: oneOf('decimal', decimal, DECIMALS, faults),
    errorsAsText: oneOf('onError', onError, ON_ERROR, faults) === 'text',
    rest,
    faults,
  };
}

function oneOf<W extends string>(
  parameter: string,
  given: unknown,
  words: readonly [W, ...W[]],
  faults: ParameterFault[],
): W {
  const word = words.find((one) => one === given);
  if (given !== undefined && word === undefined) {
    const accepted = words.join(', ');
    const detail = `${JSON.stringify(given)} is not accepted for \`${parameter}\`.`;
    faults.push({ parameter, code: 'not-one-of', detail, accepted });
  }
  return word ?? words[0];
}

/** @throws HttpProblem (414) for an address longer than the programs that cells are for can use */
export function refuseLongAddress(address: string): void {
  const most = httpCapacities.cellAddressCharacters;
  if (address.length <= most) return;
  throw new HttpProblem('uri-too-long', `The address has ${address.length} characters; at most ${most} are read.`);
}
