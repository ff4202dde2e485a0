import { Type } from '@sinclair/typebox';
import type { Fault } from '../../circuit/fault.js';
import { stated, statedRange } from '../../circuit/resolve/stated.js';
import { ref } from '../../circuit/schema/ref.js';
import { createValidator } from '../../circuit/validate.js';
import type { StockPart } from '../../limits/stock/stock-part.js';
import { stockCapacities } from './stock-capacities.js';
import { type StockPartInput, StockPartSchema } from './stock-part-schema.js';

export const StockSchema = Type.Array(ref(StockPartSchema), {
  minItems: 1,
  maxItems: stockCapacities.stockParts,
  description: 'Resistors at hand, to be looked through for every resistor that has a window.',
});
const validate = createValidator([StockPartSchema]);

/** Reads the parts at hand, or gives every fault. */
export function readStock(
  input: unknown,
  pointer: string,
): { readonly stock: readonly StockPart[] } | { readonly faults: readonly Fault[] } {
  const faults = validate(StockSchema, input, pointer);
  if (faults.length > 0) return { faults };
  return {
    stock: (input as readonly StockPartInput[]).map(({ resistance, power, voltage, overload, count = 1 }) => ({
      resistance: statedRange(resistance, 'positiveResistance'),
      power: stated(power, 'power'),
      ...(voltage === undefined ? {} : { voltage: stated(voltage, 'positiveVoltage') }),
      ...(overload === undefined
        ? {}
        : {
            overload: { factor: stated(overload.factor, 'positiveRatio'), duration: stated(overload.duration, 'time') },
          }),
      count,
    })),
  };
}
