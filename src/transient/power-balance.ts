import { FactoredMatrix } from './factored-matrix.js';
import { CURRENT_LOAD_KNEE } from './load-knee.js';

const MOST_ROUNDS = 40;
/** Relative change of a voltage at which Newton's method has ended: the next would be its square. */
const ENDED = 1e-9;

/**
 * Voltages at which given powers are drawn: v = idle + effect·(powers/v), by Newton's method from the voltage with nothing drawn,
 * which lies above the answer that a load comes down to.
 * @param idle V
 * @param effect V at each for 1 A drawn at each
 * @param powers W
 * @returns undefined where there is no such voltage, or it is below the loads' constant range
 */
export function powerBalance(
  idle: readonly number[],
  effect: readonly (readonly number[])[],
  powers: readonly number[],
): number[] | undefined {
  const v = [...idle];
  const usable = (): boolean => v.every((volts) => volts > CURRENT_LOAD_KNEE / 2 && volts < Infinity);
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    if (!usable()) return undefined;
    const residual: number[] = [];
    const jacobian = effect.map((row, i) => {
      let right = (idle[i] as number) - (v[i] as number);
      const line = row.map((volts, j) => {
        const current = (powers[j] as number) / (v[j] as number);
        right += volts * current;
        return (volts * current) / (v[j] as number) + (i === j ? 1 : 0);
      });
      residual.push(right);
      return line;
    });
    const by = FactoredMatrix.of(jacobian)?.solve(residual);
    if (by === undefined) return undefined;
    let largest = 0;
    by.forEach((volts, i) => {
      const from = v[i] as number;
      v[i] = from + volts;
      largest = Math.max(largest, Math.abs(volts / from));
    });
    if (largest <= ENDED) return usable() ? v : undefined;
  }
  return undefined;
}
