import { boundedQuantity, type QuantityName } from '../../circuit/bounded-quantities.js';
import { siUnit } from '../../circuit/quantity-units.js';
import type { ScalarName } from '../../limits/closed-forms/scalar-form.js';

/** One query parameter of a cell. */
export interface CellParameter {
  readonly quantity: QuantityName;
  readonly description: string;
  /** As it is written in an address: no character that would have to be escaped. */
  readonly example: string;
}

/** What each query parameter holds, the same for every limit. */
export const cellParameters: Readonly<Record<ScalarName, CellParameter>> = {
  prechargeResistance: {
    quantity: 'positiveResistance',
    description: 'Pre-charge resistance, everything in series with it included.',
    example: '1k5',
  },
  loadResistance: {
    quantity: 'positiveResistance',
    description:
      'What loads the link while it charges. Repeat it, or separate by commas, for loads in parallel. Where it may be left out and is, nothing loads the link.',
    example: '47k',
  },
  threshold: {
    quantity: 'fraction',
    description: 'Level of the link, as a ratio to the accumulator’s open-circuit voltage.',
    example: '0.95',
  },
  voltage: {
    quantity: 'positiveVoltage',
    description:
      'Voltage of the accumulator at its worst: the lowest for `constant-power-load-max`, the highest for all else.',
    example: '600',
  },
  capacitance: { quantity: 'capacitance', description: 'Capacitance of the link, all of it.', example: '500u' },
  time: { quantity: 'time', description: 'Time allowed.', example: '5' },
  limitVoltage: {
    quantity: 'positiveVoltage',
    description: 'Voltage below which the link has to fall.',
    example: '60',
  },
  dischargeResistance: { quantity: 'positiveResistance', description: 'Discharge resistance.', example: '2k7' },
  power: { quantity: 'power', description: 'Power taken.', example: '10' },
  current: { quantity: 'current', description: 'Largest current allowed.', example: '2' },
  energy: { quantity: 'energy', description: 'Heat that the part stands in the time.', example: '900' },
  ratedPower: { quantity: 'power', description: 'Power that the part stands.', example: '150' },
  sourceResistance: {
    quantity: 'resistance',
    description:
      'Resistance of source, cables and capacitor in series. Where it may be left out and is, nothing is in series.',
    example: '0.2',
  },
  tolerance: {
    quantity: 'tolerance',
    description:
      'Relative tolerance of the part that is bounded; of a setting, the error of the comparison as a ratio. Left out, the part (or the comparison) is taken to be exact.',
    example: '0.05',
  },
};

/** The SI unit of a parameter; empty for a ratio. */
export function unitOf(name: ScalarName): string {
  return siUnit(boundedQuantity(cellParameters[name].quantity).dimension);
}
