import type { Fault } from '../../circuit/fault.js';
import { finishFaults } from '../../circuit/finish-faults.js';
import { isRecord } from '../../circuit/is-record.js';
import type { ResolvedCircuit } from '../../circuit/model.js';
import { readCircuit } from '../../circuit/read-circuit.js';
import { validate } from '../../circuit/validate.js';
import { searchFaults } from '../cost-faults.js';
import { envelopeOf } from '../envelope.js';
import { readRulesets } from '../read-rulesets.js';
import { readWholeEvent } from '../read-request.js';
import type { Revisions } from './compare-circuits.js';
import { CompareRequestSchema } from './compare-schemas.js';

/** Reads the body of a comparison; all faults of both revisions come together, in order of place. */
export function readRevisions(
  body: unknown,
): { readonly revisions: Revisions } | { readonly faults: readonly Fault[] } {
  // A missing ruleset is the ruleset's reader to tell, since it lists the ids.
  const faults = validate(envelopeOf(CompareRequestSchema), body, '#').filter(({ pointer }) => pointer !== '#/ruleset');
  if (!isRecord(body)) return { faults: finishFaults(faults, '#') };
  const revision = (field: 'before' | 'after'): ResolvedCircuit | undefined => {
    if (body[field] === undefined) return undefined;
    const reading = readCircuit(body[field], `#/${field}`);
    if ('faults' in reading) {
      faults.push(...reading.faults);
      return undefined;
    }
    faults.push(...searchFaults(reading.circuit));
    return reading.circuit;
  };
  const before = revision('before');
  const after = revision('after');
  const book = readRulesets({ ruleset: body['ruleset'] }, '#');
  if ('faults' in book) faults.push(...book.faults);
  const ruleset = 'rulesets' in book ? book.rulesets[0] : undefined;
  const event = body['event'] === undefined ? undefined : readWholeEvent(body['event']);
  if (event !== undefined && 'faults' in event) faults.push(...event.faults);
  if (faults.length > 0 || before === undefined || after === undefined || ruleset === undefined) {
    return { faults: finishFaults(faults, '#') };
  }
  const stated = event !== undefined && 'event' in event ? { event: event.event } : {};
  return { revisions: { before, after, ruleset, ...stated } };
}
