import { type TSchema, Type } from '@sinclair/typebox';
import { acceptedForm } from '../accepted-form.js';
import { boundedQuantities, boundedQuantity, type QuantityName } from '../bounded-quantities.js';
import { capacities } from '../capacities.js';
import { siUnit } from '../quantity-units.js';

/** A quantity as a request may give it: a number in SI, or text with a unit. */
export type QuantityInput = number | string;

/** A toleranced quantity as a request may give it. */
export type TolerancedInput =
  | QuantityInput
  | { nominal: QuantityInput; tolerance: QuantityInput }
  | { min: QuantityInput; nominal: QuantityInput; max: QuantityInput };

export type ResistanceCurveInput = QuantityInput[][];

/** How a named schema's values are read: the reader behind the schema says what is wrong, in one fault a mistake. */
export type Reading =
  | { readonly form: 'plain' | 'toleranced'; readonly quantity: QuantityName }
  | { readonly form: 'resistance-curve' };

/** By `$id`: the reading of every schema whose values are quantities. */
export const readings = new Map<string, Reading>();

const names = Object.keys(boundedQuantities) as readonly QuantityName[];

export const TOLERANCED = [
  'resistance',
  'positiveResistance',
  'capacitance',
  'positiveVoltage',
  'voltageMagnitude',
  'current',
  'power',
] as const satisfies readonly QuantityName[];
export type TolerancedName = (typeof TOLERANCED)[number];

function plainId(name: QuantityName): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}

function tolerancedId(name: TolerancedName): string {
  return `Toleranced${plainId(name)}`;
}

/** A field that holds a quantity of that name. */
export function quantity(name: QuantityName, description?: string) {
  return Type.Unsafe<QuantityInput>(Type.Ref(plainId(name), annotations(description)));
}

/** A field that holds a toleranced quantity of that name. */
export function toleranced(name: TolerancedName, description?: string) {
  return Type.Unsafe<TolerancedInput>(Type.Ref(tolerancedId(name), annotations(description)));
}

function annotations(description: string | undefined): { description?: string } {
  return description === undefined ? {} : { description };
}

function plainSchema(name: QuantityName): TSchema {
  const bounded = boundedQuantity(name);
  const unit = siUnit(bounded.dimension);
  return Type.Unsafe<QuantityInput>({
    $id: plainId(name),
    title: bounded.noun.replace(/^an? /, '').replace(/^./, (letter) => letter.toUpperCase()),
    description: `${unit === '' ? 'A plain number' : `In ${unit}`}: ${acceptedForm(bounded)}.`,
    type: ['number', 'string'],
    [bounded.aboveMinimum === true ? 'exclusiveMinimum' : 'minimum']: bounded.minimum,
    [bounded.belowMaximum === true ? 'exclusiveMaximum' : 'maximum']: bounded.maximum,
    minLength: 1,
    maxLength: capacities.quantityLength,
    examples: [bounded.example],
  });
}

function tolerancedSchema(name: TolerancedName): TSchema {
  const value = quantity(name);
  return Type.Unsafe<TolerancedInput>({
    $id: tolerancedId(name),
    description:
      'A bare quantity (tolerance not stated), or a nominal value with a relative symmetric tolerance, or a range with min ≤ nominal ≤ max.',
    oneOf: [
      value,
      Type.Object({ nominal: value, tolerance: quantity('tolerance') }, { additionalProperties: false }),
      Type.Object({ min: value, nominal: value, max: value }, { additionalProperties: false }),
    ],
  });
}

const curveSchema = Type.Unsafe<ResistanceCurveInput>({
  $id: 'ResistanceCurve',
  description: 'Points [temperature in °C, ratio to the nominal resistance], temperatures rising.',
  type: 'array',
  minItems: 1,
  maxItems: capacities.curvePoints,
  items: { type: 'array', minItems: 2, maxItems: 2, items: { type: ['number', 'string'] } },
  examples: [
    [
      [25, 1],
      [125, 1.1],
    ],
  ],
});

/** A field that holds a resistance curve. */
export const resistanceCurve = Type.Optional(Type.Unsafe<ResistanceCurveInput>(Type.Ref('ResistanceCurve')));

for (const name of names) readings.set(plainId(name), { form: 'plain', quantity: name });
for (const name of TOLERANCED) readings.set(tolerancedId(name), { form: 'toleranced', quantity: name });
readings.set('ResistanceCurve', { form: 'resistance-curve' });

/** Every quantity schema, each with its `$id`. */
export const quantitySchemas: readonly TSchema[] = [
  ...names.map(plainSchema),
  ...TOLERANCED.map(tolerancedSchema),
  curveSchema,
];
