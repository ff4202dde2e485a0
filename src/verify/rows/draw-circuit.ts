import type { Static } from '@sinclair/typebox';
import type { Fault } from '../../circuit/fault.js';
import { finishFaults } from '../../circuit/finish-faults.js';
import { isRecord } from '../../circuit/is-record.js';
import { readCircuit } from '../../circuit/read-circuit.js';
import { validate } from '../../circuit/validate.js';
import { checkCircuit } from '../check-circuit.js';
import { envelopeOf } from '../envelope.js';
import { readWholeEvent } from '../read-request.js';
import { expandRow, rowInput, type RowOptions } from './expand-row.js';
import { type DrawAnswerSchema, DrawRequestSchema } from './row-schema.js';
import { rowOrCircuitFaults } from './row-or-circuit-faults.js';

export type DrawReading = { readonly answer: Static<typeof DrawAnswerSchema> } | { readonly faults: readonly Fault[] };

/** The full circuit that a request's row stands for, or its circuit as it was understood. */
export function drawCircuit(body: unknown, { decimal }: Pick<RowOptions, 'decimal'>): DrawReading {
  const faults: Fault[] = [...validate(envelopeOf(DrawRequestSchema), body, '#')];
  if (!isRecord(body)) return { faults: finishFaults(faults, '#') };
  faults.push(...rowOrCircuitFaults(body));
  const event = body['event'] === undefined ? undefined : readWholeEvent(body['event']);
  if (event !== undefined && 'faults' in event) faults.push(...event.faults);
  const meterStated = event !== undefined && 'event' in event && event.event.meterResistance !== undefined;

  const input = body['row'] === undefined ? undefined : rowInput(body['row']);
  const row = input === undefined || 'faults' in input ? input : expandRow(input, { decimal, meterStated });
  const circuit = body['circuit'] === undefined ? undefined : readCircuit(body['circuit'], '#/circuit');
  for (const reading of [row, circuit])
    if (reading !== undefined && 'faults' in reading) faults.push(...reading.faults);
  if (faults.length > 0) return { faults: finishFaults(faults, '#') };

  if (row !== undefined && 'circuit' in row) {
    const { arrangement, car, extra, notes } = row;
    const notesOfRow = { arrangement, ...(car === undefined ? {} : { car }), extra: { ...extra }, notes: [...notes] };
    return { answer: { ...checkCircuit(row.circuit), row: notesOfRow } };
  }
  if (circuit !== undefined && 'circuit' in circuit) return { answer: checkCircuit(circuit.circuit) };
  return { faults: finishFaults(faults, '#') };
}
