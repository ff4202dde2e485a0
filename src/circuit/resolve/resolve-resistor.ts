import type { Resistor, ResistorRatings } from '../model.js';
import { readResistanceCurve } from '../resistance-curve.js';
import type { ElementInputs } from '../schema/element.js';
import type { ElementFields } from './element-fields.js';
import { stated, statedRange } from './stated.js';
import { withoutUndefined } from './without-undefined.js';

type ResistorInput = ElementInputs['resistor'];

/** A resistor in SI. */
export function resolveResistor(input: ResistorInput, base: ElementFields): Resistor {
  const { ratings, thermal, surroundings, resistanceCurve } = input;
  return withoutUndefined({
    ...base,
    kind: input.kind,
    resistance: statedRange(input.resistance, 'resistance'),
    role: input.role,
    technology: input.technology,
    resistanceCurve: resistanceCurve === undefined ? undefined : curve(resistanceCurve),
    mounting: input.mounting,
    ambientMax: stated(input.ambientMax, 'temperature'),
    ratings: ratings === undefined ? undefined : resolveRatings(ratings),
    thermal:
      thermal === undefined
        ? undefined
        : withoutUndefined({
            resistance: stated(thermal.resistance, 'thermalResistance'),
            capacitance: stated(thermal.capacitance, 'heatCapacity'),
            maxTemperature: stated(thermal.maxTemperature, 'temperature'),
          }),
    surroundings:
      surroundings === undefined
        ? undefined
        : withoutUndefined({
            limitTemperature: stated(surroundings.limitTemperature, 'temperature'),
            clearance: stated(surroundings.clearance, 'length'),
            measuredTemperature: stated(surroundings.measuredTemperature, 'temperature'),
          }),
  });
}

function resolveRatings(ratings: NonNullable<ResistorInput['ratings']>): ResistorRatings {
  const { overload } = ratings;
  return withoutUndefined({
    power: stated(ratings.power, 'power'),
    powerFreeAir: stated(ratings.powerFreeAir, 'power'),
    fullPowerUpTo: stated(ratings.fullPowerUpTo, 'temperature'),
    zeroPowerAt: stated(ratings.zeroPowerAt, 'temperature'),
    voltage: stated(ratings.voltage, 'positiveVoltage'),
    overload:
      overload === undefined
        ? undefined
        : { factor: stated(overload.factor, 'positiveRatio'), duration: stated(overload.duration, 'time') },
  });
}

function curve(input: NonNullable<ResistorInput['resistanceCurve']>): ReadonlyArray<readonly [number, number]> {
  const reading = readResistanceCurve(input, '');
  if ('value' in reading) return reading.value;
  throw new Error('read before it was validated: resistanceCurve');
}
