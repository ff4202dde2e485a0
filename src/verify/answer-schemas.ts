import type { TSchema } from '@sinclair/typebox';
import { StockNoteSchema, StockUseSchema } from '../limits/stock/stock-use.js';
import { CheckAnswerSchema } from './check-circuit.js';
import { FindingsAnswerSchema } from './find-breaches.js';
import { LimitsAnswerSchema } from './find-limits.js';
import { reportSchemas } from './report.js';

/** Every schema with an `$id` of this floor's answers, those of transients aside. */
export const answerSchemas: readonly TSchema[] = [
  ...reportSchemas,
  FindingsAnswerSchema,
  StockUseSchema,
  StockNoteSchema,
  LimitsAnswerSchema,
  CheckAnswerSchema,
];
