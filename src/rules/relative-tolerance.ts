import type { Toleranced } from '../circuit/model.js';

/** The larger side of a value's range relative to its nominal; `assumed` where the value states none. */
export function relativeTolerance(value: Toleranced, assumed: number): number {
  if (!value.toleranceStated) return assumed;
  if (value.nominal === 0) return 0;
  return Math.max(value.max - value.nominal, value.nominal - value.min) / Math.abs(value.nominal);
}
