import { type Static, Type } from '@sinclair/typebox';
import { ref } from '../circuit/schema/ref.js';
import { computeLimits } from '../limits/index.js';
import { LimitRecordSchema, WindowSchema } from '../limits/limit-record.js';
import type { StockPart } from '../limits/stock/stock-part.js';
import { StockNoteSchema, StockUseSchema } from '../limits/stock/stock-use.js';
import { type Case, prepare } from './prepare.js';
import { ProvenanceSchema } from './report.js';
import { stockAnswer } from './stock/stock-answer.js';

export const LimitsAnswerSchema = Type.Object(
  {
    limits: Type.Array(ref(LimitRecordSchema)),
    windows: Type.Array(ref(WindowSchema)),
    stock: Type.Optional(
      Type.Array(ref(StockUseSchema), {
        description:
          'Where the request had a stock: what of it can stand in the place of each resistor, at most 20 a resistor, best margin first.',
      }),
    ),
    stockNotes: Type.Optional(
      Type.Array(ref(StockNoteSchema), { description: 'Where the request had a stock: resistors that nothing fits.' }),
    ),
    provenance: ref(ProvenanceSchema),
  },
  { $id: 'LimitsAnswer', additionalProperties: true },
);
export type LimitsAnswer = Static<typeof LimitsAnswerSchema>;

/** Every bound on every part value, the window that they leave, and which parts at hand fit into it. */
export function findLimits(subject: Case, stock?: readonly StockPart[]): LimitsAnswer {
  const prepared = prepare(subject, stock === undefined ? {} : { stock });
  const { limits, windows } = computeLimits(prepared.facts);
  return {
    limits: [...limits],
    windows: [...windows],
    ...(stock === undefined ? {} : stockAnswer(prepared, { limits, windows }, stock)),
    provenance: prepared.provenance(),
  };
}
