/**
 * A quantity as shares of what a state is made of: of each mode at [i], of each mode's slope at [n + i], of each drive channel
 * at [2n + c]. One array: rows are made by the thousand.
 */
export type Row = number[];

export function emptyRow(modes: number, channels: number): Row {
  return new Array<number>(2 * modes + channels).fill(0);
}

/** target += factor · source */
export function addToRow(target: Row, source: Row, factor: number): void {
  for (let i = 0; i < target.length; i += 1) target[i] = (target[i] as number) + (source[i] as number) * factor;
}
