import { type CapacityTable, valuesOf } from '../../circuit/capacity-table.js';

/** Bounds of limit tables, published with the others. */
export const tableCapacityTable = {
  limitTableValues: [250, 'Values of the varied parameter in one table of limits.'],
} as const satisfies CapacityTable;

export const tableCapacities = valuesOf(tableCapacityTable);
