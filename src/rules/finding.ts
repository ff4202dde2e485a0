import { type Static, Type } from '@sinclair/typebox';
import { stringEnum } from '../circuit/schema/string-enum.js';

const open = { additionalProperties: true };

export const ClauseSchema = Type.Object(
  {
    document: Type.String(),
    version: Type.String(),
    clause: Type.String(),
    confirmed: stringEnum(['read', 'second-hand', 'memory', 'ours']),
  },
  { $id: 'Clause', ...open, description: 'Where a rule comes from, and how sure we are of the row.' },
);

export const FindingSchema = Type.Object(
  {
    rule: Type.String({ description: 'The rule’s id.' }),
    title: Type.String(),
    status: stringEnum(['met', 'violated', 'undetermined', 'not-applicable']),
    weight: stringEnum(['rule', 'advice']),
    clauses: Type.Array(Type.Unsafe<Static<typeof ClauseSchema>>(Type.Ref('Clause'))),
    message: Type.String({ description: 'A plain sentence with the actual value, the limit and the unit.' }),
    evidence: Type.Record(Type.String(), Type.Unknown(), {
      description:
        'Numbers and paths behind the status, SI. Met or violated always with `actual`, `limit`, `margin` (relative, positive where kept; null: no number), `unit` and `path`; where nothing is measured the faults are counted, unit `count`, limit 0.',
    }),
    elements: Type.Array(Type.String()),
    remedy: Type.Optional(Type.String()),
    inspect: Type.Optional(Type.String({ description: 'What to look at on the real car.' })),
    missing: Type.Optional(
      Type.Array(Type.String(), { description: 'JSON pointers of the fields that would settle it.' }),
    ),
    causedBy: Type.Optional(Type.Array(Type.String(), { description: 'Rules of which this is a consequence.' })),
  },
  { $id: 'Finding', ...open },
);
export type Finding = Static<typeof FindingSchema>;

export const VERDICTS = ['violation-found', 'undetermined', 'no-violation-found'] as const;
export type Verdict = (typeof VERDICTS)[number];
