import type { Fault } from '../../circuit/fault.js';
import { finishFaults } from '../../circuit/finish-faults.js';
import { isRecord } from '../../circuit/is-record.js';
import { readCircuit } from '../../circuit/read-circuit.js';
import { validate } from '../../circuit/validate.js';
import { searchFaults } from '../cost-faults.js';
import { envelopeOf } from '../envelope.js';
import type { Event } from '../event.js';
import type { Case } from '../prepare.js';
import { readRulesets } from '../read-rulesets.js';
import { readWholeEvent } from '../read-request.js';
import { type ExpandedRow, expandRow, type RowInput, rowInput, type RowOptions } from '../rows/expand-row.js';
import { rowOrCircuitFaults } from '../rows/row-or-circuit-faults.js';
import { BatchItemSchema, ID_LENGTH } from './batch-schemas.js';

/** What holds for every item that does not say otherwise. */
export interface ItemDefaults extends Pick<RowOptions, 'decimal'> {
  /** A ruleset's id, known to exist. */
  readonly ruleset?: string;
  readonly event?: Event;
}

export type ItemId = string | number | null;

export type ItemReading =
  | { readonly id: ItemId; readonly subject: Case; readonly row?: ExpandedRow }
  | { readonly id: ItemId; readonly faults: readonly Fault[] };

/** Reads one item given as JSON; its faults come together, in order of place. */
export function readItem(body: unknown, defaults: ItemDefaults): ItemReading {
  const faults: Fault[] = [...validate(envelopeOf(BatchItemSchema), body, '#')];
  if (!isRecord(body)) return { id: null, faults: finishFaults(faults, '#') };
  const id = readId(body['id']);
  faults.push(...idFaults(body['id'], id), ...rowOrCircuitFaults(body));
  const event = readEventOr(body['event'], defaults.event, faults);
  const row = body['row'] === undefined ? undefined : rowInput(body['row']);
  if (row !== undefined && 'faults' in row) faults.push(...row.faults);
  const ruleset = body['ruleset'] ?? defaults.ruleset;
  if (row !== undefined && 'headers' in row) return readRow(row, ruleset, event, defaults, faults, id);

  const circuit = body['circuit'] === undefined ? undefined : readCircuit(body['circuit'], '#/circuit');
  if (circuit !== undefined) {
    faults.push(...('faults' in circuit ? circuit.faults : searchFaults(circuit.circuit)));
  }
  const book = readRulesets({ ruleset }, '#');
  if ('faults' in book) faults.push(...book.faults);
  const chosen = 'rulesets' in book ? book.rulesets[0] : undefined;
  if (faults.length > 0 || circuit === undefined || !('circuit' in circuit) || chosen === undefined) {
    return { id, faults: finishFaults(faults, '#') };
  }
  return { id, subject: { circuit: circuit.circuit, ruleset: chosen, ...(event === undefined ? {} : { event }) } };
}

/** Reads one record of a table, judged under the defaults; `isFirst` says at length what all records lack. */
export function readRecord(input: RowInput, defaults: ItemDefaults, isFirst: boolean): ItemReading {
  const reading = readRow(input, defaults.ruleset, defaults.event, defaults, [], null);
  if (defaults.ruleset !== undefined || !('faults' in reading)) return reading;
  const faults = reading.faults.map((fault) => (fault.pointer === RULESET ? withoutRuleset(fault, isFirst) : fault));
  return { ...reading, faults };
}

const RULESET = '#/ruleset';

/** A table's rows name no ruleset, so one missing is a fault of the table: in full once, and briefly in the place of every other row. */
function withoutRuleset({ pointer, code, accepted = '' }: Fault, isFirst: boolean): Fault {
  const missing = '`ruleset` is missing for the whole table';
  if (!isFirst) return { pointer, code, detail: `${missing}.` };
  const detail = `${missing}: name it once, in the query (\`?ruleset=…\`), as ${accepted}. None is taken by default, since rulebooks differ.`;
  return { pointer, code, detail, accepted };
}

function readRow(
  input: RowInput,
  ruleset: unknown,
  event: Event | undefined,
  { decimal }: ItemDefaults,
  before: readonly Fault[],
  statedId: ItemId,
): ItemReading {
  const row = expandRow(input, { decimal, meterStated: event?.meterResistance !== undefined });
  const id = statedId ?? row.car ?? null;
  const faults = [...before];
  if ('faults' in row) faults.push(...row.faults);
  const book = readRulesets({ ruleset }, '#');
  if ('faults' in book) faults.push(...book.faults);
  const chosen = 'rulesets' in book ? book.rulesets[0] : undefined;
  if (faults.length > 0 || !('circuit' in row) || chosen === undefined) {
    return { id, faults: finishFaults(faults, '#') };
  }
  return { id, row, subject: { circuit: row.circuit, ruleset: chosen, ...(event === undefined ? {} : { event }) } };
}

function readEventOr(given: unknown, otherwise: Event | undefined, faults: Fault[]): Event | undefined {
  if (given === undefined) return otherwise;
  const reading = readWholeEvent(given);
  if ('event' in reading) return reading.event;
  faults.push(...reading.faults);
  return undefined;
}

function readId(given: unknown): ItemId {
  if (typeof given === 'number') return Number.isSafeInteger(given) ? given : null;
  return typeof given === 'string' && given.length <= ID_LENGTH ? given : null;
}

function idFaults(given: unknown, read: ItemId): Fault[] {
  if (given === undefined || read !== null) return [];
  const detail = `An id is text of at most ${ID_LENGTH} characters, or a whole number.`;
  return [{ pointer: '#/id', code: 'wrong-type', detail }];
}
