import type { ReducedNetwork } from './reduced-network.js';
import { addToRow, emptyRow, type Row } from './row.js';
import type { StatePlan } from './state-plan.js';

/** What the voltages of a switch state are made of, as shares of its modes and channels. */
export class StateRows {
  /** Where a row's shares of the channels begin. */
  readonly firstChannel: number;
  private readonly drops = new Map<number, Row>();

  /**
   * @param held by merged node: of those that hold a state; undefined: the others
   * @param modes how many there are
   */
  constructor(
    private readonly plan: StatePlan,
    private readonly network: ReducedNetwork,
    private readonly held: readonly (Row | undefined)[],
    private readonly modes: number,
  ) {
    this.firstChannel = 2 * modes;
  }

  empty(): Row {
    return emptyRow(this.modes, this.network.channels);
  }

  /**
   * The difference of two merged nodes of one island with its own relative accuracy, however small it is beside the two: a node that
   * was taken out stands at a weighted mean of others, so its drop to one of them is that mean of the others' drops. Nothing but two
   * capacitors' voltages is ever subtracted. Not to be written to.
   */
  drop(a: number, b: number): Row {
    if (a === b) return this.empty();
    const key = a * this.plan.size + b;
    const known = this.drops.get(key);
    if (known !== undefined) return known;
    const row = this.made(a, b);
    this.drops.set(key, row);
    return row;
  }

  private made(a: number, b: number): Row {
    const { stepOf } = this.plan.elimination;
    const [first, second] = [stepOf[a] as number, stepOf[b] as number];
    const row = this.empty();
    if (first >= 0 && (second < 0 || first < second)) {
      this.network.combine(first, row, this.firstChannel, (other) => this.drop(other, b));
    } else if (second >= 0) addToRow(row, this.drop(b, a), -1);
    else {
      addToRow(row, this.held[a] ?? row, 1);
      const other = this.held[b];
      if (other !== undefined) addToRow(row, other, -1);
    }
    return row;
  }
}
