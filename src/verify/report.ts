import { type Static, type TSchema, Type } from '@sinclair/typebox';
import { stringEnum } from '../circuit/schema/string-enum.js';
import { ref } from '../circuit/schema/ref.js';
import { LimitRecordSchema, WindowSchema } from '../limits/limit-record.js';
import { FindingSchema, VERDICTS } from '../rules/finding.js';
import { CarTestSchema } from './car-tests/car-test-schema.js';

// Answers are open: they may gain fields within v1. Requests are strict.
const open = { additionalProperties: true };

const nullableNumber = (description: string) => Type.Unsafe<number | null>({ type: ['number', 'null'], description });

const place = Type.Unsafe<Readonly<Record<string, number>>>({
  type: 'object',
  additionalProperties: { type: 'number' },
  description: 'Element id (and field where not its defining one) → fraction of its range, −1…1.',
});

export const SensitivitySchema = Type.Object(
  {
    element: Type.String({ description: 'The part, named as in `at`.' }),
    low: nullableNumber(
      'What the figure changes by, in its unit, with this part at the low end of its range and all others at nominal. null: there it has no number (never).',
    ),
    high: nullableNumber('The same at the high end.'),
  },
  { $id: 'Sensitivity', ...open, description: 'What one part alone does to a figure.' },
);

const figureFields = {
  unit: Type.String({ description: 'SI; empty for a ratio.' }),
  nominal: nullableNumber('At nominal values. null: unbounded, never, or not computable (then `reason` says why).'),
  min: nullableNumber('Smallest over all tolerances.'),
  max: nullableNumber('Largest over all tolerances.'),
  bound: stringEnum(['proved', 'searched'], {
    description:
      '`proved`: nothing within the tolerances lies beyond, and the ends are reached; `searched`: they come of a search, see `gap`.',
  }),
  gap: Type.Optional(
    Type.Object(
      { min: nullableNumber('At the lower end.'), max: nullableNumber('At the upper end.') },
      {
        ...open,
        description:
          'With `searched`: how far the end given may lie beyond what was found, in the figure’s unit. Where a number, nothing within the tolerances lies beyond the end; null: nothing bounds what the search may have missed, and a rule is met only where what was found, with a quarter of all that the tolerances do beyond it, keeps to its limit.',
      },
    ),
  ),
  at: Type.Object({ min: place, max: place }, { ...open, description: 'Where the extremes lie.' }),
  reason: Type.Optional(
    Type.String({
      description: 'Why there is no number: `not-stated`, `no-path`, `ideal-loop`, `no-state-holds`, `never`.',
    }),
  ),
  missing: Type.Optional(
    Type.Array(Type.String(), { description: 'Pointers of the fields without which it cannot be computed.' }),
  ),
  sensitivities: Type.Optional(
    Type.Array(ref(SensitivitySchema), {
      maxItems: 5,
      description:
        'Where the request asks for them: the parts that move the figure most, each alone through its range (assumed tolerances too), the largest change first; parts without effect left out. Not with every figure.',
    }),
  ),
};

export const FigureSchema = Type.Object(figureFields, {
  $id: 'Figure',
  ...open,
  description: 'A computed quantity at nominal values and over all tolerances.',
});
export type FigureAnswer = Static<typeof FigureSchema>;

export const TimeFigureSchema = Type.Object(
  {
    ...figureFields,
    reached: stringEnum(['always', 'sometimes', 'never'], {
      description: 'Whether it is reached everywhere, somewhere or nowhere within the tolerances.',
    }),
  },
  { $id: 'TimeFigure', ...open, description: 'A duration in s; null in `max` means never, for some values.' },
);
export type TimeFigureAnswer = Static<typeof TimeFigureSchema>;

const ElementFigure = Type.Object(
  { element: Type.String({ description: 'The element’s id.' }), ...figureFields },
  { $id: 'ElementFigure', ...open, description: 'A figure of one element.' },
);

export const PrechargeSchema = Type.Object(
  {
    resistor: Type.Optional(
      Type.String({ description: 'The resistor the figures speak of; absent: none carries the rise.' }),
    ),
    steadyRatio: ref(FigureSchema),
    timeToThreshold: ref(TimeFigureSchema),
    timeConstant: ref(FigureSchema),
    peakCurrent: ref(FigureSchema),
    resistorEnergy: ref(FigureSchema),
    resistorEnergyTotal: ref(FigureSchema),
    resistorPeakPower: ref(FigureSchema),
    resistorPeakTemperature: ref(FigureSchema),
    currentAtSecondClosure: ref(FigureSchema),
  },
  {
    $id: 'Precharge',
    ...open,
    // Beside a reference the OpenAPI document would drop it.
    description:
      'The rise of the intermediate circuit. `currentAtSecondClosure` is taken at the earliest closing of the last relays: at the threshold as set (not stated: the ruleset’s level) less the comparison’s error. Its `min` is therefore the least current at that voltage, and not the least that may flow: after a later closing less does.',
  },
);

export const DischargeSchema = Type.Object(
  {
    id: Type.String({ description: 'The state’s stable label.' }),
    scenario: stringEnum(['shutdown', 'disconnect-open', 'container-removed', 'all-separated']),
    container: Type.Optional(Type.String({ description: 'The one container that leaves, of several.' })),
    required: Type.Boolean({ description: 'True where the ruleset names this state.' }),
    voltage: Type.Optional(
      Type.String({ description: 'The slowest voltage, of which the figures speak: a capacitor’s id, or plug pins.' }),
    ),
    timeToLimit: Type.Optional(ref(TimeFigureSchema)),
    startVoltage: ref(FigureSchema),
    voltageAtLimit: Type.Optional(ref(FigureSchema)),
    resistorEnergy: Type.Array(ref(ElementFigure)),
    continuousPower: Type.Array(ref(ElementFigure)),
    path: Type.Array(Type.String(), { description: 'Elements by which it discharges; empty: nothing discharges it.' }),
    satisfied: Type.Unsafe<boolean | null>({
      type: ['boolean', 'null'],
      description: 'Below the limit in time; null: undetermined.',
    }),
  },
  { $id: 'Discharge', ...open, description: 'The fall of the voltage in one separation state.' },
);

export const JudgedStepSchema = Type.Object(
  {
    at: Type.Optional(Type.Number()),
    after: Type.Optional(Type.Number()),
    when: Type.Optional(Type.Object({ linkRatio: Type.Number(), falling: Type.Boolean() }, open)),
    close: Type.Array(Type.String()),
    open: Type.Array(Type.String()),
    release: Type.Boolean(),
  },
  { $id: 'StepAsRun', ...open, description: 'A step as it was run.' },
);

export const SequenceAnswerSchema = Type.Object(
  {
    source: stringEnum(['stated', 'default'], { description: 'Whose order it is: the request’s or the default.' }),
    steps: Type.Array(ref(JudgedStepSchema)),
  },
  { $id: 'SequenceAsRun', ...open },
);

export const CautionSchema = Type.Object({ id: Type.String(), text: Type.String() }, { $id: 'Caution', ...open });

const AssumptionSchema = Type.Object(
  { pointer: Type.String({ description: 'The field that was not stated.' }), assumed: Type.String() },
  { $id: 'Assumption', ...open },
);

export const ProvenanceSchema = Type.Object(
  {
    contract: Type.String({ description: 'The wire contract’s version.' }),
    engine: Type.String({ description: 'The engine’s version.' }),
    ruleset: Type.Optional(
      Type.Object(
        {
          id: Type.String(),
          revision: Type.String(),
          document: Type.String(),
          version: Type.String(),
          defaulted: Type.Boolean({ description: 'False: the request named it.' }),
        },
        open,
      ),
    ),
    inputDigest: Type.String({
      pattern: '^sha-256:[0-9a-f]{64}$',
      description: 'SHA-256 of the RFC 8785 form of the request in plain SI.',
    }),
    assumptions: Type.Array(ref(AssumptionSchema)),
    accuracy: Type.Optional(
      Type.Number({
        description:
          'How far off a value may be, relative to the largest of its signal; only where that may be more than 1e-9: loads of constant power, or capacitors without a common node whose numbers lie too many decades apart.',
      }),
    ),
    event: Type.Optional(
      Type.Object(
        {
          meterResistance: Type.Optional(Type.Number({ description: 'Ω' })),
          parameters: Type.Record(Type.String(), Type.Unknown()),
        },
        open,
      ),
    ),
    overrides: Type.Array(Type.Object({ parameter: Type.String(), from: Type.Unknown(), to: Type.Unknown() }, open), {
      description: 'Parameters of the ruleset that the event replaces.',
    }),
  },
  { $id: 'Provenance', ...open, description: 'What the result was made from, so that it can be made again.' },
);
export type Provenance = Static<typeof ProvenanceSchema>;

export const ReportSchema = Type.Object(
  {
    verdict: stringEnum(VERDICTS),
    findings: Type.Array(ref(FindingSchema)),
    precharge: ref(PrechargeSchema),
    discharge: Type.Array(ref(DischargeSchema)),
    limits: Type.Array(ref(LimitRecordSchema)),
    windows: Type.Array(ref(WindowSchema)),
    carTests: Type.Array(ref(CarTestSchema)),
    sequence: ref(SequenceAnswerSchema),
    cautions: Type.Array(ref(CautionSchema)),
    provenance: ref(ProvenanceSchema),
  },
  { $id: 'Report', ...open, description: 'Everything about one circuit under one ruleset.' },
);
export type Report = Static<typeof ReportSchema>;

/** Schemas with an `$id` of this floor's answers. */
export const reportSchemas: readonly TSchema[] = [
  SensitivitySchema,
  FigureSchema,
  TimeFigureSchema,
  ElementFigure,
  PrechargeSchema,
  DischargeSchema,
  JudgedStepSchema,
  SequenceAnswerSchema,
  CarTestSchema,
  CautionSchema,
  AssumptionSchema,
  ProvenanceSchema,
  ReportSchema,
];
