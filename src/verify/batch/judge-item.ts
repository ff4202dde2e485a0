import { computeLimits } from '../../limits/index.js';
import { judge, verdictOf } from '../../rules/engine.js';
import { findBreaches } from '../find-breaches.js';
import { prepare } from '../prepare.js';
import type { Report } from '../report.js';
import { withColumnPointers } from '../rows/with-column-pointers.js';
import { type CarRecord, carRecord } from '../summary/car-record.js';
import { verifyCircuit } from '../verify-circuit.js';
import type { VerdictAnswer } from './batch-schemas.js';
import type { ItemReading } from './read-item.js';
import { verdictAnswer } from './verdict-answer.js';

/** How much is wanted of each item: the verdict, the whole report, or what the summary of all is made of. */
export const DETAILS = ['verdict', 'full', 'summary'] as const;
export type Detail = (typeof DETAILS)[number];

export type Readable = Extract<ItemReading, { readonly subject: unknown }>;

/** Fields of a row that are not in its circuit, as an answer carries them. */
interface RowNotes {
  readonly extra?: Readonly<Record<string, unknown>>;
  readonly notes?: readonly string[];
}

/** @throws CircuitFault where the circuit cannot be computed, with pointers to columns where it came from a row */
export function judgeVerdict({ subject, row }: Readable): VerdictAnswer & RowNotes {
  const { verdict, findings } = findBreaches(subject);
  return { ...verdictAnswer(verdict, findings), ...notesOf(row) };
}

/** @throws CircuitFault */
export function judgeFully({ subject, row }: Readable): Report & RowNotes {
  const report = verifyCircuit(subject);
  return { ...(row === undefined ? report : withColumnPointers(report, row.toColumn)), ...notesOf(row) };
}

/** @throws CircuitFault */
export function judgeForSummary({ subject, row }: Readable): CarRecord {
  const { facts, ruleset } = prepare(subject);
  const findings = judge(facts, ruleset);
  const record = carRecord(verdictOf(findings), findings, computeLimits(facts).limits);
  return row === undefined ? record : withColumnPointers(record, row.toColumn);
}

function notesOf(row: Readable['row']): RowNotes {
  if (row === undefined) return {};
  return {
    ...(Object.keys(row.extra).length === 0 ? {} : { extra: row.extra }),
    ...(row.notes.length === 0 ? {} : { notes: row.notes }),
  };
}
