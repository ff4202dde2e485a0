import { type Static, type TSchema, Type } from '@sinclair/typebox';
import { capacities } from '../circuit/capacities.js';
import type { ResolvedCircuit, Step } from '../circuit/model.js';
import { CircuitSchema } from '../circuit/schema/circuit.js';
import { EventSchema } from '../circuit/schema/event.js';
import { name, nodePair } from '../circuit/schema/names.js';
import { quantity } from '../circuit/schema/quantity-schemas.js';
import { ref } from '../circuit/schema/ref.js';
import { SequenceSchema } from '../circuit/schema/step.js';
import { stringEnum } from '../circuit/schema/string-enum.js';
import type { Event } from './event.js';
import type { Probe } from './probe.js';
import { ProvenanceSchema, SequenceAnswerSchema } from './report.js';

const strict = { additionalProperties: false };
const open = { additionalProperties: true };
const nullableNumber = (description: string) => Type.Unsafe<number | null>({ type: ['number', 'null'], description });

export const ProbeSchema = Type.Object(
  {
    id: name('Names the signal in the answer.'),
    voltage: Type.Optional(nodePair('From the second node to the first.')),
    current: Type.Optional(name('An element: from its first node to its second, through it.')),
    power: Type.Optional(name('An element: what it absorbs.')),
    temperature: Type.Optional(name('A resistor with a stated thermal resistance and capacitance.')),
  },
  { $id: 'Probe', ...strict, description: 'Watches exactly one of `voltage`, `current`, `power`, `temperature`.' },
);

export const TransientsRequestSchema = Type.Object(
  {
    circuit: ref(CircuitSchema),
    sequence: Type.Optional(ref(SequenceSchema)),
    probes: Type.Optional(
      Type.Array(ref(ProbeSchema), {
        minItems: 1,
        maxItems: capacities.probes,
        description: 'Not stated: the voltage of the intermediate circuit.',
      }),
    ),
    duration: Type.Optional(quantity('time', 'Of the record. Not stated: until the last signal has settled.')),
    samples: Type.Optional(
      Type.Integer({
        minimum: 2,
        maximum: capacities.instants,
        description: 'Instants, evenly spread over the duration, both ends included. Not stated: 201.',
      }),
    ),
    times: Type.Optional(
      Type.Array(quantity('time'), {
        minItems: 1,
        maxItems: capacities.instants,
        description: 'The instants themselves, not falling; in place of `duration` and `samples`.',
      }),
    ),
    event: Type.Optional(
      ref(EventSchema, {
        description:
          'Its meter loads the circuit; of its parameters only `threshold` shapes a run (the default order).',
      }),
    ),
  },
  { $id: 'TransientsRequest', ...strict, description: 'What to compute over time, at nominal values.' },
);

/** The instants at which signals are wanted, in s: as listed, or evenly spread over a duration (not stated: our choice). */
export type Instants = { readonly times: readonly number[] } | { readonly duration?: number; readonly samples: number };

/** A request for transients as read: everything in SI, every reference known to exist. */
export interface TransientsInput {
  readonly circuit: ResolvedCircuit;
  /** Absent: the order the circuit states, else the default one. */
  readonly sequence?: readonly Step[];
  readonly probes: readonly Probe[];
  readonly instants: Instants;
  readonly event?: Event;
}

const SignalSchema = Type.Object(
  {
    id: Type.String({ description: 'The probe’s.' }),
    quantity: stringEnum(['voltage', 'current', 'power', 'temperature']),
    unit: stringEnum(['V', 'A', 'W', '°C']),
    values: Type.Array(nullableNumber('null: no value; `reasons` says why.'), {
      description: 'One for each instant; at a switching instant the one just after it.',
    }),
    reasons: Type.Optional(
      Type.Array(Type.Unsafe<string | null>({ type: ['string', 'null'] }), {
        description: 'Beside `values`: null where there is a value, else why there is none. Absent: all have values.',
      }),
    ),
  },
  { $id: 'Signal', ...open },
);

const probeValues = (description: string) =>
  Type.Array(Type.Object({ id: Type.String(), value: nullableNumber('null: no value.') }, open), { description });

const EventAnswerSchema = Type.Object(
  {
    time: Type.Number({ description: 's; of steps that never run, the end of the record.' }),
    step: Type.Unsafe<number | null>({
      type: ['integer', 'null'],
      description: 'Index into the sequence; null: no step (a load or a machine’s diode switched).',
    }),
    opened: Type.Array(Type.String()),
    closed: Type.Array(Type.String()),
    before: probeValues('Probe values just before.'),
    after: probeValues('Probe values just after.'),
    energyLost: Type.Number({ description: 'J, turned to heat at the instant (ideal capacitors that share charge).' }),
    note: Type.Optional(Type.String({ description: 'What else there is to say, such as steps that never ran.' })),
  },
  { $id: 'TransientEvent', ...open, description: 'An instant at which something switched.' },
);

const RunFigureSchema = Type.Object(
  {
    unit: Type.String(),
    nominal: nullableNumber('null: never, without end, or not computable; `reason` says which.'),
    element: Type.Optional(Type.String({ description: 'The part it speaks of.' })),
    reason: Type.Optional(Type.String()),
  },
  { $id: 'TransientFigure', ...open, description: 'A number of the run as a whole, at nominal values.' },
);

export const TransientsAnswerSchema = Type.Object(
  {
    time: Type.Array(Type.Number(), { description: 's' }),
    signals: Type.Array(ref(SignalSchema)),
    events: Type.Array(ref(EventAnswerSchema)),
    figures: Type.Record(Type.String(), ref(RunFigureSchema), {
      description:
        'By name, as in `precharge` of a report; of every resistor but the only pre-charge resistor with its id behind a colon (`resistorEnergy:bleed`). `resistorRmsCurrent` is taken over the record, all else over the whole run, what follows the record included.',
    }),
    sequence: ref(SequenceAnswerSchema),
    provenance: ref(ProvenanceSchema),
  },
  { $id: 'TransientsAnswer', ...open },
);
export type TransientsAnswer = Static<typeof TransientsAnswerSchema>;

/** Schemas with an `$id` of this file. */
export const transientsSchemas: readonly TSchema[] = [
  ProbeSchema,
  TransientsRequestSchema,
  SignalSchema,
  EventAnswerSchema,
  RunFigureSchema,
  TransientsAnswerSchema,
];
