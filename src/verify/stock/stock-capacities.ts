/** Bounds of a stock, published with the others. */
export const stockCapacities = {
  /** Kinds of parts at hand in one request; every two are tried together. */
  stockParts: 50,
  /** Combinations that are put into the circuit and judged by every rule, over all resistors that have a window. */
  stockTrials: 240,
} as const;
