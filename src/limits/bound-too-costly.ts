/** States that may be solved to find the bounds of one demand; as many as some tenths of a second of following loads of constant power take. */
export const MOST_FOR_BOUND = 150_000;

/** States solved for a circuit, findings and all, beyond which no bound is looked for any further: half of what a call has time for. */
export const MOST_WITH_BOUNDS = 1_000_000;

/** A bound whose search would cost more than it is worth: what is judged without it stands. */
export class BoundTooCostly extends Error {}
