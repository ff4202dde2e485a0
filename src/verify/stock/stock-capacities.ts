import { type CapacityTable, valuesOf } from '../../circuit/capacity-table.js';

/** Bounds of a stock, published with the others. */
export const stockCapacityTable = {
  stockParts: [50, 'Kinds of parts at hand in one request; every two are tried together.'],
  stockTrials: [
    240,
    'Combinations of parts at hand that are put into the circuit and judged by every rule, over all resistors that have a window.',
  ],
} as const satisfies CapacityTable;

export const stockCapacities = valuesOf(stockCapacityTable);
