import type { TObject } from '@sinclair/typebox';
import { type Directory, directoryOf, directoryOfInput } from '../circuit/directory.js';
import type { Fault } from '../circuit/fault.js';
import { finishFaults } from '../circuit/finish-faults.js';
import { isRecord } from '../circuit/is-record.js';
import type { ResolvedCircuit, Step } from '../circuit/model.js';
import { readCircuit } from '../circuit/read-circuit.js';
import { readEvent } from '../circuit/read-event.js';
import { readSequence } from '../circuit/read-sequence.js';
import { validate } from '../circuit/validate.js';
import { readOverrides } from '../rules/read-overrides.js';
import type { StockPart } from '../limits/stock/stock-part.js';
import type { Ruleset } from '../rules/ruleset.js';
import { runFaults, searchFaults, valueFaults } from './cost-faults.js';
import { envelopeOf } from './envelope.js';
import type { Event } from './event.js';
import type { Probe } from './probe.js';
import { readInstants } from './read-instants.js';
import { readProbes } from './read-probes.js';
import { readRulesets } from './read-rulesets.js';
import { CheckRequestSchema, VerifyRequestSchema } from './requests.js';
import { readStock } from './stock/read-stock.js';
import { type Instants, TransientsRequestSchema } from './transients-schema.js';

/** A request as read. Parts that its call does not have, or that were not stated, are absent or empty. */
export interface Request {
  readonly circuit: ResolvedCircuit;
  /** As chosen, in the order given; an event's overrides are not in them yet. */
  readonly rulesets: readonly Ruleset[];
  /** True where `rulesets` was given, be it with one id: the answer is then a list. */
  readonly several: boolean;
  readonly event?: Event;
  readonly sequence?: readonly Step[];
  /** Empty: not stated. */
  readonly probes: readonly Probe[];
  readonly instants: Instants;
  /** Parts at hand. */
  readonly stock?: readonly StockPart[];
  /** Whether figures say which parts move them most. */
  readonly sensitivities: boolean;
}

export type RequestReading = { readonly request: Request } | { readonly faults: readonly Fault[] };

/**
 * Reads the body of any call. All faults come together, in order of place: an unknown field beside a wrong unit inside
 * the circuit, a dangling probe and a ruleset that does not exist.
 * @param schema of the call's request: which fields it has and which are required
 */
export function readRequest(schema: TObject, body: unknown): RequestReading {
  const faults: Fault[] = [...validate(envelopeOf(schema), body, '#')];
  if (!isRecord(body)) return { faults: finishFaults(faults, '#') };

  /** The value of what was read; its faults are kept, and undefined stands for what has any. */
  const keep = <T extends object>(reading: T | { readonly faults: readonly Fault[] }): T | undefined => {
    if (!('faults' in reading)) return reading;
    faults.push(...reading.faults);
    return undefined;
  };
  const has = (field: string): boolean => field in schema.properties && body[field] !== undefined;

  const circuit = has('circuit') ? keep(readCircuit(body['circuit'], '#/circuit'))?.circuit : undefined;
  /** What steps and probes may name: a circuit with faults of its own still has names, as far as they can be read. */
  const directory = (): Directory | undefined => {
    if (circuit !== undefined) return directoryOf(circuit);
    return has('circuit') ? directoryOfInput(body['circuit'], '#/circuit') : undefined;
  };
  const chosen = 'ruleset' in schema.properties ? keep(readRulesets(body, '#'))?.rulesets : [];
  const event = has('event') ? keep(readWholeEvent(body['event']))?.event : undefined;
  const sequence = has('sequence')
    ? keep(readSequence(body['sequence'], '#/sequence', directory()))?.sequence
    : undefined;
  const probes = has('probes') ? keep(readProbes(body['probes'], '#/probes', directory()))?.probes : [];
  const instants = 'times' in schema.properties ? keep(readInstants(body, '#'))?.instants : { samples: 0 };
  const stock = has('stock') ? keep(readStock(body['stock'], '#/stock'))?.stock : undefined;
  if (has('sensitivities')) {
    faults.push(...validate(VerifyRequestSchema.properties.sensitivities, body['sensitivities'], '#/sensitivities'));
  }
  if (circuit !== undefined && schema !== CheckRequestSchema) {
    faults.push(...(schema === TransientsRequestSchema ? runFaults(circuit) : searchFaults(circuit)));
  }
  if (probes !== undefined && instants !== undefined) faults.push(...valueFaults(probes, instants));

  if (
    faults.length > 0 ||
    circuit === undefined ||
    chosen === undefined ||
    probes === undefined ||
    instants === undefined
  ) {
    return { faults: finishFaults(faults, '#') };
  }
  return {
    request: {
      circuit,
      rulesets: chosen,
      several: body['rulesets'] !== undefined,
      ...(event === undefined ? {} : { event }),
      ...(sequence === undefined ? {} : { sequence }),
      probes,
      instants,
      ...(stock === undefined ? {} : { stock }),
      sensitivities: body['sensitivities'] === true,
    },
  };
}

/** The event's own form, and its parameters against what the rules let an organiser set. */
export function readWholeEvent(input: unknown): { readonly event: Event } | { readonly faults: readonly Fault[] } {
  const given = isRecord(input) && isRecord(input['parameters']) ? input['parameters'] : {};
  const overrides = readOverrides(given, '#/event/parameters');
  const reading = readEvent(input, '#/event');
  const faults = [reading, overrides].flatMap((part) => ('faults' in part ? part.faults : []));
  if ('faults' in reading || 'faults' in overrides) return { faults };
  return { event: { ...reading.event, parameters: overrides.parameters } };
}
