/** A root of signal − level. `direction`: +1 rises through it, −1 falls, 0 touches and turns back. */
export interface Crossing {
  readonly time: number;
  readonly direction: 1 | -1 | 0;
}
