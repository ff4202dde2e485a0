import type { EventConditions } from './event-conditions.js';
import type { Fault } from './fault.js';
import { finishFaults } from './finish-faults.js';
import { stated } from './resolve/stated.js';
import { withoutUndefined } from './resolve/without-undefined.js';
import { type EventInput, EventSchema } from './schema/event.js';
import { validate } from './validate.js';

export type EventReading = { readonly event: EventConditions } | { readonly faults: readonly Fault[] };

/** Reads an organiser's conditions from a request. */
export function readEvent(input: unknown, pointer: string): EventReading {
  const faults = validate(EventSchema, input, pointer);
  if (faults.length > 0) return { faults: finishFaults(faults, pointer) };
  const { meterResistance, parameters } = input as EventInput;
  return {
    event: withoutUndefined({
      meterResistance: stated(meterResistance, 'positiveResistance'),
      parameters: parameters ?? {},
    }),
  };
}
