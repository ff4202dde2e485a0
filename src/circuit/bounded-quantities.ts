/** What a number measures; each has units of its own. */
export type Dimension =
  | 'voltage'
  | 'current'
  | 'resistance'
  | 'capacitance'
  | 'time'
  | 'energy'
  | 'power'
  | 'temperature'
  | 'thermalResistance'
  | 'heatCapacity'
  | 'length'
  | 'ratio';

/** A quantity of one dimension with the bounds a field puts on it. Bounds in the SI unit. */
export interface BoundedQuantity {
  readonly dimension: Dimension;
  /** As it stands in a sentence: `a resistance`. */
  readonly noun: string;
  readonly minimum: number;
  readonly maximum: number;
  /** True where the minimum itself is refused. */
  readonly aboveMinimum?: true;
  /** True where the maximum itself is refused. */
  readonly belowMaximum?: true;
  readonly example: number | string;
}

/**
 * Every bounded quantity, once. Bounds are wide: they catch a slip of the unit (an accumulator of 400 MV) and keep the
 * computation within what a double can hold; what a rulebook allows is no business of the reader.
 */
export const boundedQuantities = {
  voltage: { dimension: 'voltage', noun: 'a voltage', minimum: -1e5, maximum: 1e5, example: '400 V' },
  positiveVoltage: {
    dimension: 'voltage',
    noun: 'a voltage above zero',
    minimum: 0,
    aboveMinimum: true,
    maximum: 1e5,
    example: '400 V',
  },
  voltageMagnitude: { dimension: 'voltage', noun: 'a voltage', minimum: 0, maximum: 1e5, example: '60 V' },
  current: { dimension: 'current', noun: 'a current', minimum: 0, maximum: 1e6, example: '200 mA' },
  resistance: { dimension: 'resistance', noun: 'a resistance', minimum: 0, maximum: 1e12, example: '4k7' },
  positiveResistance: {
    dimension: 'resistance',
    noun: 'a resistance above zero',
    minimum: 0,
    aboveMinimum: true,
    maximum: 1e12,
    example: '47 kΩ',
  },
  capacitance: {
    dimension: 'capacitance',
    noun: 'a capacitance',
    minimum: 0,
    aboveMinimum: true,
    maximum: 1e3,
    example: '680 µF',
  },
  time: { dimension: 'time', noun: 'a time', minimum: 0, maximum: 1e7, example: '5 ms' },
  energy: { dimension: 'energy', noun: 'an energy', minimum: 0, maximum: 1e9, example: '90 J' },
  power: { dimension: 'power', noun: 'a power', minimum: 0, maximum: 1e9, example: '50 W' },
  temperature: {
    dimension: 'temperature',
    noun: 'a temperature',
    minimum: -273.15,
    maximum: 2000,
    example: '40 °C',
  },
  thermalResistance: {
    dimension: 'thermalResistance',
    noun: 'a thermal resistance',
    minimum: 0,
    aboveMinimum: true,
    maximum: 1e6,
    example: '2.5 K/W',
  },
  heatCapacity: {
    dimension: 'heatCapacity',
    noun: 'a heat capacity',
    minimum: 0,
    aboveMinimum: true,
    maximum: 1e9,
    example: '40 J/K',
  },
  length: { dimension: 'length', noun: 'a length', minimum: 0, maximum: 1000, example: '15 mm' },
  ratio: { dimension: 'ratio', noun: 'a ratio', minimum: 0, maximum: 1e6, example: 1.5 },
  positiveRatio: {
    dimension: 'ratio',
    noun: 'a ratio above zero',
    minimum: 0,
    aboveMinimum: true,
    maximum: 1e6,
    example: 5,
  },
  fraction: { dimension: 'ratio', noun: 'a ratio from 0 to 1', minimum: 0, maximum: 1, example: 0.95 },
  tolerance: {
    dimension: 'ratio',
    noun: 'a relative tolerance',
    minimum: 0,
    maximum: 1,
    belowMaximum: true,
    example: 0.05,
  },
} as const satisfies Readonly<Record<string, BoundedQuantity>>;

export type QuantityName = keyof typeof boundedQuantities;

/** The quantity of that name, as the interface sees it. */
export function boundedQuantity(name: QuantityName): BoundedQuantity {
  return boundedQuantities[name];
}
