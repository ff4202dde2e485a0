import type { Direction } from '../../src/transient/bounds.js';
import type { Box } from '../../src/transient/box.js';
import type { Values } from '../../src/transient/compiled-circuit.js';

/** Relative step of the difference quotient, and what of it may be rounding. */
const STEP = 1e-4;
export const ROUNDING = 1e-9;

export interface Directed {
  readonly name: string;
  readonly value: (values: Values) => number;
  readonly direction: (index: number) => Direction;
  /** What a difference counts against where the figure itself is 0. */
  readonly least: number;
}

/** Directions that a figure's own differences refute, and how many were proved and left open. */
export interface Tally {
  readonly wrong: string[];
  proved: number;
  open: number;
}

/** A point anywhere in the ranges. */
export function somewhere({ nominal, uncertain }: Box, next: () => number): Values {
  const values = nominal.slice();
  for (const { index, low, high } of uncertain) values[index] = low + (high - low) * next();
  return values;
}

/** Holds every direction of a figure against its differences at three points of the box. */
export function compareDirections(
  box: Box,
  { name, value, direction, least }: Directed,
  nameOf: (index: number) => string,
  next: () => number,
  tally: Tally,
): void {
  for (const { index, low, high } of box.uncertain) {
    const sign = direction(index);
    if (sign === undefined) {
      tally.open += 1;
      continue;
    }
    tally.proved += 1;
    for (let point = 0; point < 3; point += 1) {
      const values = somewhere(box, next);
      values[index] = Math.min(values[index]!, high / (1 + STEP));
      const before = value(values);
      values[index] *= 1 + STEP;
      const after = value(values);
      if (!Number.isFinite(before) || !Number.isFinite(after)) continue;
      const change = (after - before) / Math.max(Math.abs(before), Math.abs(after), least);
      if (sign === 0 ? Math.abs(change) > ROUNDING : change * sign < -ROUNDING)
        tally.wrong.push(`${name} by ${nameOf(index)}: ${sign}, ${change} (${low}…${high})`);
    }
  }
}
