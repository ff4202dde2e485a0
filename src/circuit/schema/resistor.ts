import { Type } from '@sinclair/typebox';
import { elementBase, STRICT } from './element-base.js';
import { quantity, resistanceCurve, toleranced } from './quantity-schemas.js';
import { stringEnum } from './string-enum.js';

const overload = Type.Object(
  {
    factor: quantity('positiveRatio', 'Times the rated power.'),
    duration: quantity('time', 'For so long.'),
  },
  STRICT,
);

const ratings = Type.Object(
  {
    power: Type.Optional(quantity('power', 'Mounted the way the data sheet says.')),
    powerFreeAir: Type.Optional(quantity('power')),
    fullPowerUpTo: Type.Optional(quantity('temperature')),
    zeroPowerAt: Type.Optional(quantity('temperature')),
    voltage: Type.Optional(quantity('positiveVoltage')),
    overload: Type.Optional(overload),
  },
  STRICT,
);

const thermal = Type.Object(
  {
    resistance: Type.Optional(quantity('thermalResistance', 'From the element to its surroundings.')),
    capacitance: Type.Optional(quantity('heatCapacity')),
    maxTemperature: Type.Optional(quantity('temperature')),
  },
  STRICT,
);

const surroundings = Type.Object(
  {
    limitTemperature: Type.Optional(quantity('temperature', 'What the nearest neighbour stands.')),
    clearance: Type.Optional(quantity('length')),
    measuredTemperature: Type.Optional(quantity('temperature')),
  },
  STRICT,
);

export const ResistorSchema = Type.Object(
  {
    ...elementBase,
    kind: Type.Literal('resistor'),
    resistance: toleranced('resistance'),
    role: Type.Optional(stringEnum(['precharge', 'discharge', 'bleed', 'sense', 'body-protection', 'other'])),
    technology: Type.Optional(stringEnum(['wirewound', 'film', 'carbon', 'ptc', 'ntc', 'other'])),
    resistanceCurve,
    mounting: Type.Optional(stringEnum(['as-rated', 'heat-sink', 'structure', 'free-air'])),
    ambientMax: Type.Optional(quantity('temperature', 'The warmest air or sink around it.')),
    ratings: Type.Optional(ratings),
    thermal: Type.Optional(thermal),
    surroundings: Type.Optional(surroundings),
  },
  { $id: 'Resistor', ...STRICT },
);
