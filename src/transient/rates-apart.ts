/** Relative distance of two rates from which on the difference of their exponentials keeps its digits. */
const APART = 0.5;

/** Whether a mode's response to a fading drive may be written as the difference of the two exponentials. */
export function ratesApart(mode: number, drive: number): boolean {
  return Math.abs(mode - drive) > APART * Math.max(Math.abs(mode), Math.abs(drive));
}
