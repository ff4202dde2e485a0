import { addTerm } from './add-term.js';
import { ExponentialSum } from './exponential-sum.js';

/** Share of the signal below which a term is rounding. */
const NOTHING = 1e-15;

/**
 * Least |λ − μ|·t, over the time that it lasts, at which a driven mode is taken apart: the rounding of two nearly equal
 * exponentials then stays below 1e-11.
 */
const APART = 1e-2;

/**
 * A signal with its driven modes as the two exponentials that they are, where those are far enough apart over a duration (s), and terms
 * below rounding left out: what then cancels a constant does so before it is squared and counted for a long time.
 */
export function takenApart(signal: ExponentialSum, duration: number): ExponentialSum {
  const rates: number[] = [];
  const coefficients: number[] = [];
  const add = (rate: number, coefficient: number): void => addTerm(rates, coefficients, rate, coefficient);
  signal.rates.forEach((rate, i) => {
    add(rate, signal.coefficients[i] as number);
  });
  for (let j = 0; j < signal.driven.length; j += 1) {
    const mode = signal.modeRates[j] as number;
    const drive = signal.driveRates[j] as number;
    // NaN (equal rates, for ever) and a drive that grows keep the general form as well.
    if (!(Math.abs(mode - drive) * Math.min(duration, 1 / Math.min(mode, drive)) >= APART)) return signal;
    const coefficient = (signal.driven[j] as number) / (mode - drive);
    add(drive, coefficient);
    add(mode, -coefficient);
  }
  const least = NOTHING * signal.size();
  const kept = coefficients.flatMap((coefficient, i) => (Math.abs(coefficient) > least ? [i] : []));
  return new ExponentialSum(
    kept.map((i) => rates[i] as number),
    kept.map((i) => coefficients[i] as number),
  );
}
