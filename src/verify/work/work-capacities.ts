/** Bounds of the work of one request, published with the others. */
export const workCapacities = {
  /** In the unit of `expectedWork`: about 20 s on the machine of the bench, within the factor that the estimate is wrong by. */
  expectedWork: 250_000,
} as const;
