import { type Static, Type } from '@sinclair/typebox';
import { stringEnum } from '../circuit/schema/string-enum.js';

const nullableNumber = (description: string) => Type.Unsafe<number | null>({ type: ['number', 'null'], description });

export const LimitRecordSchema = Type.Object(
  {
    name: Type.String({ description: 'The limit’s name.' }),
    element: Type.Optional(Type.String({ description: 'The part it bounds.' })),
    bound: stringEnum(['min', 'max']),
    rule: Type.String({ description: 'The rule it serves: satisfied exactly where that rule is met.' }),
    value: nullableNumber(
      'Bound on the part’s true value. null: no value of the part can help, none can hurt, or it was not found; `outcome` and `note` say which.',
    ),
    nominal: nullableNumber(
      'The largest (smallest) nominal at the stated tolerance for which the verdict holds, all other parts at their worst.',
    ),
    unit: Type.String(),
    present: nullableNumber('The present nominal.'),
    margin: nullableNumber(
      'Relative, positive where satisfied: 1 − present/nominal for a max, 1 − nominal/present for a min. null: one of the two has no number, or the bound is the edge of what counts as a value that the book names.',
    ),
    satisfied: Type.Unsafe<boolean | null>({ type: ['boolean', 'null'], description: 'null: undetermined.' }),
    binding: Type.Boolean({ description: 'True for the tightest of its kind on this part.' }),
    basis: Type.String({ description: 'The formula in words, with the numbers put in.' }),
    sources: Type.Array(Type.String()),
    outcome: Type.Optional(
      stringEnum(['bound', 'no-value-helps', 'no-value-hurts', 'not-stated', 'too-costly'], {
        description: 'What `value` is, or why it is null.',
      }),
    ),
    note: Type.Optional(Type.String()),
    at: Type.Optional(
      Type.Record(Type.String(), Type.Number(), {
        description:
          'The worst case that it was taken at: where in its range each other part stands (−1 its smallest, 1 its largest value), by element id, or id and field where that is not the defining one. A part that is not named makes no difference, or has no range.',
      }),
    ),
    missing: Type.Optional(Type.Array(Type.String())),
  },
  { $id: 'Limit', additionalProperties: true },
);
export type LimitRecord = Static<typeof LimitRecordSchema>;

export const WindowSchema = Type.Object(
  {
    element: Type.String(),
    quantity: stringEnum(['resistance', 'capacitance']),
    unit: Type.String(),
    min: nullableNumber('Smallest nominal for which every rule that a limit serves holds; null: no lower end.'),
    max: nullableNumber('Largest; null: no upper end.'),
    minBy: Type.Optional(
      Type.String({
        description:
          'The limit that closes the lower end. For a part that loads the rise it can be one on the pre-charge resistor, whose demand is on both.',
      }),
    ),
    maxBy: Type.Optional(Type.String({ description: 'The limit that closes the upper end.' })),
    empty: Type.Boolean(),
    explanation: Type.Optional(Type.String()),
    preferred: Type.Array(Type.Number(), {
      description:
        'IEC 60063 E24 values that keep inside the bounds on the true value (`value` of the limits) over ±5 %, the tolerance of the series, and over the tolerance of the part in place where that is wider; widest margin first. With one end open, from the decade next to the other. Where `empty` comes of the tolerance of the part in place alone, over ±5 % only. None where a bound was left out as too costly.',
    }),
    preferredE96: Type.Array(Type.Number(), {
      maxItems: 24,
      description:
        'The same for IEC 60063 E96 over ±1 %; at most 24, widest margin first. Where `empty` comes of the tolerance of the part in place alone, values of this narrower one may remain.',
    }),
  },
  { $id: 'Window', additionalProperties: true },
);
export type WindowRecord = Static<typeof WindowSchema>;
