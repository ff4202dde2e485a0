/** A quantity as a row: shares of each mode, of each mode's slope, and of each drive channel. */
export interface Row {
  readonly modes: Float64Array;
  readonly slopes: Float64Array;
  readonly channels: Float64Array;
}

export function emptyRow(modes: number, channels: number): Row {
  return { modes: new Float64Array(modes), slopes: new Float64Array(modes), channels: new Float64Array(channels) };
}

/** target += factor · source */
export function addToRow(target: Row, source: Row, factor: number): void {
  for (let i = 0; i < target.modes.length; i += 1) {
    target.modes[i] = (target.modes[i] as number) + (source.modes[i] as number) * factor;
    target.slopes[i] = (target.slopes[i] as number) + (source.slopes[i] as number) * factor;
  }
  for (let c = 0; c < target.channels.length; c += 1) {
    target.channels[c] = (target.channels[c] as number) + (source.channels[c] as number) * factor;
  }
}
