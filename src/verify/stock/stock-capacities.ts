/** Bounds of a stock, published with the others. */
export const stockCapacities = {
  /** Kinds of parts at hand in one request; every two are tried together. */
  stockParts: 50,
} as const;
