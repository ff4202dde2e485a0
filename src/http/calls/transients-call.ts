import { transientsInput } from '../../verify/transients-input.js';
import { TransientsRequestSchema } from '../../verify/transients-schema.js';
import { transients } from '../../verify/transients.js';
import { costlyParts } from '../../verify/work/costly-parts.js';
import { expectedRunWork } from '../../verify/work/expected-run-work.js';
import { serialise } from '../json/serialise.js';
import { readBody } from '../read-body.js';
import type { Call } from './call.js';

/** Voltages, currents, powers and temperatures over time. */
export const transientsCall: Call = (body) => {
  const input = transientsInput(readBody(TransientsRequestSchema, body));
  const { circuit, sequence } = input;
  const use = { nominal: true, ...(sequence === undefined ? {} : { steps: sequence.length }) };
  return {
    pointer: circuit.pointer,
    work: expectedRunWork(input),
    costly: () => [...costlyParts(circuit, use), 'Each probe has a value at each instant: ask for fewer of both.'],
    answer: () => serialise(transients(input)),
  };
};
