/** Time constants after which e^−n is below 1 %. */
const FADED = 5;
/** s; slower modes are insulation and leakage, nothing that a record should wait for. */
const SLOWEST = 1000;

/** s until the slowest mode of those that fade within a reasonable time has faded to 1 %. */
export function fadingSpan(rates: readonly number[]): number {
  let slowest = Infinity;
  for (const rate of rates) if (rate > 1 / SLOWEST) slowest = Math.min(slowest, rate);
  return slowest === Infinity ? 0 : FADED / slowest;
}
