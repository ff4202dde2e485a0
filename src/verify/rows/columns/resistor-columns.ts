import type { Column, Part } from '../column.js';
import { quantityColumn, wordColumn } from './shorthand.js';

/** What a data sheet says of a resistor and how it is mounted. */
export function resistorColumns(prefix: string, part: Part): Column[] {
  const name = (rest: string): string => `${prefix}_${rest}`;
  return [
    quantityColumn(
      name('power_rating'),
      'power',
      part,
      '/ratings/power',
      'Rated power, mounted as the data sheet says.',
    ),
    wordColumn(
      name('technology'),
      ['wirewound', 'film', 'carbon', 'ptc', 'ntc', 'other'],
      part,
      '/technology',
      'How the resistor is made.',
    ),
    wordColumn(
      name('mounting'),
      ['as-rated', 'heat-sink', 'structure', 'free-air'],
      part,
      '/mounting',
      'How it is mounted in the car.',
    ),
    quantityColumn(name('power_rating_free_air'), 'power', part, '/ratings/powerFreeAir', 'Rated power in free air.'),
    quantityColumn(name('ambient_max'), 'temperature', part, '/ambientMax', 'The warmest air or sink around it.'),
    quantityColumn(
      name('full_power_up_to'),
      'temperature',
      part,
      '/ratings/fullPowerUpTo',
      'The temperature up to which it takes its rated power.',
    ),
    quantityColumn(
      name('zero_power_at'),
      'temperature',
      part,
      '/ratings/zeroPowerAt',
      'The temperature at which it may take no power.',
    ),
    quantityColumn(
      name('voltage_rating'),
      'positiveVoltage',
      part,
      '/ratings/voltage',
      'The highest voltage across it.',
    ),
    quantityColumn(
      name('overload_factor'),
      'positiveRatio',
      part,
      '/ratings/overload/factor',
      'How many times its rated power it stands for a short time; the duration belongs to it.',
    ),
    quantityColumn(
      name('overload_duration'),
      'time',
      part,
      '/ratings/overload/duration',
      'For how long it stands the overload.',
    ),
    quantityColumn(
      name('thermal_resistance'),
      'thermalResistance',
      part,
      '/thermal/resistance',
      'From the resistor to its surroundings.',
    ),
    quantityColumn(name('heat_capacity'), 'heatCapacity', part, '/thermal/capacitance', 'Of the resistor.'),
    quantityColumn(
      name('temperature_max'),
      'temperature',
      part,
      '/thermal/maxTemperature',
      'The hottest it may become.',
    ),
    quantityColumn(
      name('neighbour_temperature_max'),
      'temperature',
      part,
      '/surroundings/limitTemperature',
      'What the nearest neighbour stands.',
    ),
    quantityColumn(
      name('temperature_measured'),
      'temperature',
      part,
      '/surroundings/measuredTemperature',
      'The hottest place of its surface, measured in the worst case.',
    ),
  ];
}
