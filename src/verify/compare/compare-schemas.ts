import { type Static, type TSchema, Type } from '@sinclair/typebox';
import { CircuitSchema } from '../../circuit/schema/circuit.js';
import { EventSchema } from '../../circuit/schema/event.js';
import { ref } from '../../circuit/schema/ref.js';
import { stringEnum } from '../../circuit/schema/string-enum.js';
import { VERDICTS } from '../../rules/finding.js';
import { ProvenanceSchema } from '../report.js';

const open = { additionalProperties: true };
const from = Type.Unknown({ description: 'Before; null: it was not there.' });
const to = Type.Unknown({ description: 'After; null: it is not there any more.' });

export const CompareRequestSchema = Type.Object(
  {
    before: ref(CircuitSchema),
    after: ref(CircuitSchema),
    ruleset: Type.String({ description: 'The ruleset’s id; both revisions are judged under it.' }),
    event: Type.Optional(ref(EventSchema)),
  },
  { $id: 'CompareRequest', additionalProperties: false, description: 'Two revisions of one car.' },
);

const side = Type.Object(
  {
    status: stringEnum(['met', 'violated', 'undetermined', 'not-applicable']),
    message: Type.String(),
  },
  open,
);

export const FindingMoveSchema = Type.Object(
  {
    rule: Type.String(),
    title: Type.String(),
    weight: stringEnum(['rule', 'advice']),
    before: side,
    after: side,
  },
  { $id: 'FindingMove', ...open, description: 'One rule in both revisions.' },
);
export type FindingMove = Static<typeof FindingMoveSchema>;

export const FieldMoveSchema = Type.Object(
  { field: Type.String({ description: 'JSON pointer below the part: `/ratings/power`.' }), from, to },
  { $id: 'FieldMove', ...open },
);
export type FieldMove = Static<typeof FieldMoveSchema>;

export const LimitMoveSchema = Type.Object(
  {
    name: Type.String(),
    element: Type.Optional(Type.String()),
    bound: stringEnum(['min', 'max']),
    unit: Type.String(),
    fields: Type.Array(ref(FieldMoveSchema), {
      description: 'Of `value`, `nominal`, `present`, `margin`, `satisfied`, `binding` those that moved.',
    }),
  },
  { $id: 'LimitMove', ...open, description: 'A bound that moved, or a part that moved against it.' },
);
export type LimitMove = Static<typeof LimitMoveSchema>;

export const PartMoveSchema = Type.Object(
  {
    id: Type.String(),
    change: stringEnum(['added', 'removed', 'changed']),
    kind: Type.String(),
    fields: Type.Array(ref(FieldMoveSchema), { description: 'Plain SI; empty where added or removed.' }),
  },
  { $id: 'PartMove', ...open },
);
export type PartMove = Static<typeof PartMoveSchema>;

export const ComparisonSchema = Type.Object(
  {
    verdict: Type.Object({ before: stringEnum(VERDICTS), after: stringEnum(VERDICTS) }, open),
    findings: Type.Object(
      {
        resolved: Type.Array(ref(FindingMoveSchema), { description: 'Violated or open before, neither after.' }),
        new: Type.Array(ref(FindingMoveSchema), { description: 'Violated or open after, neither before.' }),
        changed: Type.Array(ref(FindingMoveSchema), {
          description:
            'Another status, but neither of the two: violated and now open, open and now violated, or met and now not applicable.',
        }),
        unchanged: Type.Array(ref(FindingMoveSchema), { description: 'The same status.' }),
      },
      open,
    ),
    limits: Type.Array(ref(LimitMoveSchema), { description: 'Only what moved.' }),
    parts: Type.Array(ref(PartMoveSchema), { description: 'Only what differs, in order of id.' }),
    circuit: Type.Array(ref(FieldMoveSchema), {
      description: 'What differs outside the parts: control, indicator, link.',
    }),
    provenance: Type.Object({ before: ref(ProvenanceSchema), after: ref(ProvenanceSchema) }, open),
  },
  { $id: 'Comparison', ...open, description: 'What changed from one revision of a car to the next.' },
);
export type Comparison = Static<typeof ComparisonSchema>;

/** Every schema with an `$id` of comparisons. */
export const compareSchemas: readonly TSchema[] = [
  CompareRequestSchema,
  FindingMoveSchema,
  FieldMoveSchema,
  LimitMoveSchema,
  PartMoveSchema,
  ComparisonSchema,
];
