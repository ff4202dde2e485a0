/** Slack for sums of decimal fractions: 0.97 − 0.02 is a bit less than 0.95 as a double. Ratios, so no unit. */
export const ROUNDING = 1e-12;
