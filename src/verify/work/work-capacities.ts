import { type CapacityTable, valuesOf } from '../../circuit/capacity-table.js';

/** Bounds of the work of one request, published with the others. */
export const workCapacityTable = {
  // About 20 s on the machine of the bench, within the factor that the estimate is wrong by.
  expectedWork: [
    250_000,
    'Work that may be expected of one request, in states solved of an ordinary car; estimated from counts before any of it is done.',
  ],
} as const satisfies CapacityTable;

export const workCapacities = valuesOf(workCapacityTable);
