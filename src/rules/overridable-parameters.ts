import { type Static, type TSchema, Type } from '@sinclair/typebox';
import { stringEnum } from '../circuit/schema/string-enum.js';
import { AssumedToleranceSchema, RepeatsSchema, SeparationStatesSchema } from './parameters-schema.js';

/** What an event's `parameters` may set, once read to SI: the same names as a ruleset's rows, bounded to what can be meant. */
export const OverridesSchema = Type.Object(
  {
    threshold: Type.Optional(
      Type.Number({ minimum: 0.5, maximum: 0.999, description: 'Ratio to the accumulator’s open-circuit voltage.' }),
    ),
    prechargeDecision: Type.Optional(
      stringEnum(['measured-voltage', 'measured-voltage-or-timer'], {
        description: 'What may decide that the link is charged.',
      }),
    ),
    dischargeVoltage: Type.Optional(Type.Number({ minimum: 1, maximum: 1000, description: 'V to fall to.' })),
    dischargeVoltageStrict: Type.Optional(
      Type.Boolean({ description: 'True: below the voltage; false: at or below it.' }),
    ),
    dischargeTime: Type.Optional(Type.Number({ minimum: 0.1, maximum: 600, description: 's in which to fall.' })),
    dischargeTimeStrict: Type.Optional(Type.Boolean({ description: 'True: in less than the time; false: within it.' })),
    dischargeClock: Type.Optional(
      stringEnum(['shutdown-opens', 'relays-open'], { description: 'When the discharge time starts to count.' }),
    ),
    dischargeRatingTime: Type.Optional(
      Type.Unsafe<number | null>({
        type: ['number', 'null'],
        minimum: 1,
        maximum: 86_400,
        description: 's that the discharge resistor stands the highest voltage; null: permanently.',
      }),
    ),
    repeats: Type.Optional(RepeatsSchema),
    maximumReleaseTime: Type.Optional(
      Type.Number({ minimum: 0, maximum: 10, description: 's, the longest delay of a contact’s return to rest.' }),
    ),
    assumedTolerance: Type.Optional(AssumedToleranceSchema),
    separationStates: Type.Optional(SeparationStatesSchema),
    isolationPerVolt: Type.Optional(
      Type.Number({ minimum: 1, maximum: 1e6, description: 'Ω/V that count as isolated.' }),
    ),
    maximumVoltage: Type.Optional(Type.Number({ minimum: 1, maximum: 2000, description: 'V between the poles.' })),
  },
  {
    $id: 'ParameterOverrides',
    additionalProperties: false,
    description: 'An organiser’s own values in place of the book’s.',
  },
);

export type Overrides = Static<typeof OverridesSchema>;
export type OverridableName = keyof Overrides;

export interface OverridableParameter {
  readonly name: OverridableName;
  /** JSON Schema of its type and bounds. */
  readonly schema: TSchema;
}

/** The parameters that an event may set, with their types and bounds, in the order of the schema. */
export const overridableParameters: readonly OverridableParameter[] = (
  Object.entries(OverridesSchema.properties) as [OverridableName, TSchema][]
).map(([name, schema]) => ({ name, schema }));
