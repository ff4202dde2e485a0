/** Bounds of limit tables, published with the others. */
export const tableCapacities = {
  /** Values of the varied parameter in one table of limits. */
  limitTableValues: 250,
} as const;
