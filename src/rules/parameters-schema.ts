import { type Static, type TSchema, Type } from '@sinclair/typebox';
import { stringEnum } from '../circuit/schema/string-enum.js';

export const ConfirmedSchema = stringEnum(['read', 'second-hand', 'memory', 'ours']);

const row = <S extends TSchema>(value: S) =>
  Type.Object(
    {
      value,
      unit: Type.Optional(Type.String()),
      clause: Type.Optional(Type.String({ minLength: 1 })),
      confirmed: ConfirmedSchema,
      note: Type.Optional(Type.String()),
      overridden: Type.Optional(Type.Boolean()),
    },
    { additionalProperties: false },
  );

const positive = () => Type.Number({ exclusiveMinimum: 0 });
const ratio = () => Type.Number({ minimum: 0, exclusiveMaximum: 1 });
const nullablePositive = Type.Unsafe<number | null>({ type: ['number', 'null'], exclusiveMinimum: 0 });

export const AssumedToleranceSchema = Type.Object(
  { resistor: ratio(), capacitor: ratio(), meter: ratio() },
  { additionalProperties: false },
);

export const RepeatsSchema = Type.Object(
  { count: Type.Integer({ minimum: 1, maximum: 1000 }), within: positive() },
  { additionalProperties: false },
);

export const SeparationStatesSchema = Type.Array(
  stringEnum(['shutdown', 'disconnect-open', 'container-removed', 'all-separated']),
  { minItems: 1, uniqueItems: true },
);

/** The facts that every ruleset states, or for which it says that the value is ours. */
export const ParametersSchema = Type.Object(
  {
    threshold: row(Type.Number({ exclusiveMinimum: 0, exclusiveMaximum: 1 })),
    prechargeDecision: row(stringEnum(['measured-voltage', 'measured-voltage-or-timer'])),
    dischargeVoltage: row(positive()),
    dischargeVoltageStrict: row(Type.Boolean()),
    dischargeVoltageAc: row(positive()),
    dischargeTime: row(positive()),
    dischargeTimeStrict: row(Type.Boolean()),
    dischargeClock: row(stringEnum(['shutdown-opens', 'relays-open'])),
    dischargeRatingTime: row(nullablePositive),
    repeats: row(RepeatsSchema),
    maximumReleaseTime: row(Type.Number({ minimum: 0 })),
    assumedTolerance: row(AssumedToleranceSchema),
    separationStates: row(SeparationStatesSchema),
    isolationPerVolt: row(positive()),
    maximumVoltage: row(positive()),
    fuseBelowBreakingCurrent: row(Type.Boolean()),
    bodyProtection: row(
      Type.Array(Type.Object({ upTo: positive(), resistance: positive() }, { additionalProperties: false }), {
        minItems: 1,
      }),
    ),
  },
  { $id: 'RulesetParameters', additionalProperties: false },
);

export type RulesetParameters = Static<typeof ParametersSchema>;
export type ParameterName = keyof RulesetParameters;
