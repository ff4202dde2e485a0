import type { Values } from './compiled-circuit.js';
import type { PlannedCapacitor, PlannedIsland } from './planned.js';
import type { ReducedNetwork } from './reduced-network.js';
import { addToRow, emptyRow, type Row } from './row.js';
import { solveIsland } from './solve-island.js';
import type { SolvedIsland } from './solved-island.js';

/** Relative to what is moved: what is left of a conserved charge after rounding. */
const NOTHING = 1e-12;

/** The modes of all islands of a switch state, one behind the other, and what each node that holds one takes of them. */
export class SolvedStates {
  /** 1/s */
  readonly rates: number[];
  /** Each mode at the start. */
  readonly start: number[];
  /** Drive of mode i by channel c at [c·n + i]. */
  readonly drive: number[];
  /** By merged node; undefined: a node without a state of its own. */
  readonly rows: (Row | undefined)[] = [];
  /** Largest relative error expected of a rate. */
  error = 0;
  private base = 0;
  private readonly channels: number;

  /**
   * @param network its purely resistive nodes taken out
   * @param voltageOf V across a capacitor's merged nodes at the start
   */
  constructor(
    count: number,
    private readonly network: ReducedNetwork,
    private readonly values: Values,
    private readonly voltageOf: (capacitor: PlannedCapacitor) => number,
  ) {
    this.channels = network.channels;
    this.rates = new Array<number>(count).fill(0);
    this.start = new Array<number>(count).fill(0);
    this.drive = new Array<number>(count * network.channels).fill(0);
  }

  /** Solves an island and puts its modes behind those before it. */
  solve(island: PlannedIsland): void {
    const { common, others } = island;
    if (common !== undefined && others.length === 1) this.addOne(island.capacitors, common, others[0] as number);
    else this.add(solveIsland(this.network, island, this.values, this.voltageOf));
  }

  /** The modes of one capacitor, or of several in parallel: no eigenproblem, the node's voltage is the mode. */
  private addOne(capacitors: readonly PlannedCapacitor[], common: number, node: number): void {
    const { network, channels, base } = this;
    const n = this.rates.length;
    let farads = 0;
    for (const { element } of capacitors) farads += this.values[element.primary] as number;
    const first = capacitors[0] as PlannedCapacitor;
    this.rates[base] = network.conductance(node, common) / farads;
    this.start[base] = first.ma === common ? -this.voltageOf(first) : this.voltageOf(first);
    for (let c = 0; c < channels; c += 1)
      this.drive[c * n + base] = (network.injection(node, c) - network.shortCircuit(node, common, c)) / farads;
    const row = emptyRow(n, channels);
    row[base] = 1;
    this.rows[node] = row;
    this.base += 1;
  }

  private add(part: SolvedIsland): void {
    const k = part.nodes.length;
    const { base, channels } = this;
    const n = this.rates.length;
    const { rates, weights, steady, shapes } = part.modes;
    for (let i = 0; i < k; i += 1) {
      const rate = rates[i] as number;
      this.rates[base + i] = rate;
      let start = 0;
      for (let j = 0; j < k; j += 1) start += (weights[i * k + j] as number) * (part.start[j] as number);
      this.start[base + i] = start;
      for (let c = 0; c < channels; c += 1) {
        let level = 0;
        let injected = 0;
        let moved = 0;
        for (let j = 0; j < k; j += 1) {
          const weight = weights[i * k + j] as number;
          level += weight * (steady[c * k + j] as number);
          const push = weight * (part.injected[c * k + j] as number);
          injected += push;
          moved += Math.abs(push);
        }
        // What goes into a group that nothing discharges and comes out of it again must not leave a drift behind.
        if (rate === 0 && Math.abs(injected) <= NOTHING * moved) injected = 0;
        this.drive[c * n + base + i] = rate * level + injected;
      }
    }
    part.nodes.forEach((node, j) => {
      const row = emptyRow(n, channels);
      for (let i = 0; i < k; i += 1) row[base + i] = shapes[j * k + i] as number;
      this.rows[node] = row;
    });
    for (const each of part.dependent) {
      const row = emptyRow(n, channels);
      each.shares.forEach((share, j) => {
        for (let i = 0; i < k; i += 1)
          row[base + i] = (row[base + i] as number) + share * (shapes[j * k + i] as number);
      });
      each.channels.forEach((value, c) => {
        row[2 * n + c] = value;
      });
      this.rows[each.node] = row;
      for (const member of each.carries) {
        const shifted = this.rows[member];
        if (shifted !== undefined) addToRow(shifted, row, 1);
      }
    }
    this.base += k;
    this.error = Math.max(this.error, part.error);
  }
}
