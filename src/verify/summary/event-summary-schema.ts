import { type Static, type TSchema, Type } from '@sinclair/typebox';
import { ref } from '../../circuit/schema/ref.js';
import { stringEnum } from '../../circuit/schema/string-enum.js';
import { BatchCountsSchema } from '../batch/batch-schemas.js';
import { CautionSchema } from '../report.js';

const open = { additionalProperties: true };
const count = () => Type.Integer({ minimum: 0 });
const car = {
  index: Type.Integer({ minimum: 0 }),
  id: Type.Unsafe<string | number | null>({ type: ['string', 'integer', 'null'] }),
};

export const RuleCountSchema = Type.Object(
  {
    rule: Type.String(),
    title: Type.String(),
    weight: stringEnum(['rule', 'advice']),
    violated: count(),
    undetermined: count(),
    met: count(),
    notApplicable: count(),
  },
  { $id: 'RuleCount', ...open },
);

export const MistakeSchema = Type.Object(
  {
    rule: Type.String(),
    title: Type.String(),
    cars: Type.Integer({ minimum: 1 }),
    ids: Type.Array(car.id, { description: 'The first of them.' }),
  },
  { $id: 'Mistake', ...open, description: 'A rule that cars violate; consequences of another mistake are left out.' },
);

export const CloseMarginSchema = Type.Object(
  {
    ...car,
    limit: Type.String(),
    element: Type.Optional(Type.String()),
    unit: Type.String(),
    present: Type.Number(),
    nominal: Type.Number({ description: 'The bound on the nominal value.' }),
    margin: Type.Number({ description: 'Relative; 0 is the edge.' }),
  },
  { $id: 'CloseMargin', ...open, description: 'A limit that a car keeps, but only just.' },
);

export const AnotherLookSchema = Type.Object(
  {
    ...car,
    reason: stringEnum(['problem', 'violation-found', 'undetermined', 'close-margin']),
    rules: Type.Array(Type.String(), {
      description: 'Rules that are violated or open, limits kept by little, or the problem’s code.',
    }),
    missing: Type.Array(Type.String(), { description: 'What the team has to state.' }),
    missingIn: Type.Array(Type.Union([Type.String(), Type.Null()]), {
      description: 'For each of `missing` the id of the element that it is in; null: in none.',
    }),
  },
  { $id: 'AnotherLook', ...open },
);

export const EventSummarySchema = Type.Object(
  {
    summary: ref(BatchCountsSchema),
    rules: Type.Array(ref(RuleCountSchema), {
      description:
        'Rules in force, those most often violated first. Every finding counts, also one that follows from another mistake of the same car.',
    }),
    mistakes: Type.Array(ref(MistakeSchema), { description: 'The commonest first.' }),
    margins: Type.Array(ref(CloseMarginSchema), { description: 'The closest first.' }),
    anotherLook: Type.Array(ref(AnotherLookSchema), { description: 'Cars to look at again, in their order.' }),
    anotherLookCount: Type.Integer({ minimum: 0, description: 'Of all such cars, listed or not.' }),
    cautions: Type.Array(ref(CautionSchema)),
  },
  { $id: 'EventSummary', ...open, description: 'A whole event’s submissions at one glance.' },
);
export type EventSummary = Static<typeof EventSummarySchema>;

/** Every schema with an `$id` of event summaries. */
export const summarySchemas: readonly TSchema[] = [
  RuleCountSchema,
  MistakeSchema,
  CloseMarginSchema,
  AnotherLookSchema,
  EventSummarySchema,
];
