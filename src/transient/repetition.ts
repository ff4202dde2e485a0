/** V, relative: how near two voltages count as the same. */
const SAME = 1e-9;
/** Changes of behaviour looked back over. */
const REMEMBERED = 16;

interface Change {
  readonly modes: string;
  readonly voltages: readonly number[];
  readonly segment: number;
}

/** Sees when a run begins to repeat itself: a load that wakes, pulls its supply down and falls asleep again does that for ever. */
export class Repetition {
  private readonly changes: Change[] = [];

  /**
   * @param segment index of the segment that begins with the change
   * @returns the segment at which the same behaviour was taken at the same voltages before; where no voltage has moved since, how many
   * changes there were in between
   */
  look(
    modes: string,
    voltages: readonly number[],
    segment: number,
  ): { readonly repeatsFrom: number } | { readonly chatters: number } | undefined {
    const here = (change: Change): boolean =>
      change.voltages.every(
        (volts, k) => Math.abs(volts - (voltages[k] as number)) <= SAME * Math.max(1, Math.abs(volts)),
      );
    const known = this.changes.findIndex((each) => each.modes === modes && here(each));
    if (known >= 0 && this.changes.slice(known).every(here)) return { chatters: this.changes.length - known };
    const before = this.changes[known];
    this.changes.push({ modes, voltages, segment });
    if (this.changes.length > REMEMBERED) this.changes.shift();
    return before === undefined ? undefined : { repeatsFrom: before.segment };
  }
}
