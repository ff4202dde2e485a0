import type { CircuitFault } from '../circuit/fault.js';
import { noteAccuracy } from './accuracy.js';
import { BranchNumbers } from './branch-numbers.js';
import { sharedCharge } from './charge-sharing.js';
import { type CompiledCircuit, Mode, type Modes, type Values } from './compiled-circuit.js';
import { ExponentialSum } from './exponential-sum.js';
import { idealLoopFault } from './ideal-loop-fault.js';
import { loopThrough } from './loop-through.js';
import { planOf } from './plan-of.js';
import { FADINGS } from './power-current.js';
import { ReducedNetwork } from './reduced-network.js';
import { roundingNoise } from './rounding-noise.js';
import { addToRow, type Row } from './row.js';
import { signalOfRow } from './signal-of-row.js';
import { SolvedStates } from './solved-states.js';
import type { PlannedCapacitor } from './planned.js';
import type { StatePlan } from './state-plan.js';
import { StateRows } from './state-rows.js';
import type { StateStart } from './state-start.js';

export type { StateStart } from './state-start.js';

/** Why a signal has no value. */
export type NoValue = 'separate-islands' | 'indeterminate-loop';

/**
 * The exact behaviour of one switch state from its start on: every voltage and current as a sum of exponentials.
 *
 * Construction does the work: purely resistive nodes taken out, modes of each island found.
 * @throws CircuitFault for a loop that would need infinite current
 */
export class StateSolution {
  /** 1/s, of all islands together. */
  readonly rates: readonly number[];
  /** J lost at the start where ideal capacitors were joined at different voltages. */
  readonly energyLost: number;
  /** V of each capacitor just after the start, in the order of `compiled.capacitors`. */
  readonly startVoltages: readonly number[];
  /** Largest relative error expected of a rate; 0 where the accurate elimination applied throughout. */
  readonly estimatedError: number;

  private readonly plan: StatePlan;
  private readonly network: ReducedNetwork;
  private readonly numbers: BranchNumbers;
  private readonly channels: number;
  /** 1/s; channel 0 is constant. */
  readonly channelRates: readonly number[];
  /** Offset of each node from its merged node, V. */
  private readonly offsets: readonly number[];
  private readonly rows: StateRows;
  private rounding: number | undefined;
  /** Each mode at the start. */
  readonly start: readonly number[];
  /** Drive of mode i by channel c at [c·n + i]. */
  readonly drive: readonly number[];

  constructor(
    readonly compiled: CompiledCircuit,
    readonly values: Values,
    readonly modes: Modes,
    private readonly state: StateStart,
  ) {
    const plan = planOf(compiled, modes, values);
    this.plan = plan;
    const loop = plan.ideal.contradiction(values);
    if (loop !== undefined) throw idealLoopFault(loop, state.step);
    this.channelRates = channelRatesOf(plan, state);
    this.channels = this.channelRates.length;
    this.offsets = plan.ideal.offsets(values);
    this.numbers = new BranchNumbers(values, this.offsets, state);
    this.network = new ReducedNetwork(plan.elimination, this.channels);
    this.fillNetwork();
    const { voltages, lost } = this.shareCharge();
    this.startVoltages = voltages;
    this.energyLost = lost;
    this.network.eliminate();

    const solved = new SolvedStates(plan.stateCount, this.network, values, (capacitor) => this.startVoltage(capacitor));
    for (const island of plan.holding) solved.solve(island);
    this.rates = solved.rates;
    this.start = solved.start;
    this.drive = solved.drive;
    this.rows = new StateRows(plan, this.network, solved.rows, this.rates.length);
    this.estimatedError = solved.error;
    if (solved.error > 0) noteAccuracy(compiled, solved.error);
  }

  /** v(a) − v(b) for two nodes of the circuit. */
  voltage(a: number, b: number): ExponentialSum | NoValue {
    const row = this.voltageRow(a, b);
    return row === undefined ? 'separate-islands' : signalOfRow(row, this, this.noise);
  }

  /** The same as shares of modes and channels; undefined: separate islands. */
  voltageRow(a: number, b: number): Row | undefined {
    const row = this.difference(a, b);
    if (row === undefined) return undefined;
    const constant = this.rows.firstChannel;
    row[constant] = (row[constant] as number) + (this.offsets[a] as number) - (this.offsets[b] as number);
    return row;
  }

  /** First of the channels of a constant-power load's fading terms, by its element's index; 0: it has none. */
  loadChannel(index: number): number {
    return this.plan.currents[this.plan.currentOf[index] as number]?.channel ?? 0;
  }

  /** The current through an element, positive from its first node to its second, A. */
  current(index: number): ExponentialSum | NoValue {
    if ((this.plan.ideal.edgeOf[index] as number) < 0) {
      const row = this.currentRow(index);
      return row === undefined ? ExponentialSum.constant(0) : signalOfRow(row, this, this.noiseOf(index));
    }
    const carried = this.plan.ideal.carriedBy(index);
    if (carried === 'indeterminate-loop') return carried;
    const row = this.rows.empty();
    let noise = 0;
    for (const { element, sign } of carried) {
      const flow = this.currentRow(element);
      if (flow === undefined) continue;
      addToRow(row, flow, sign);
      noise += this.noiseOf(element);
    }
    if (this.state.injection !== undefined) {
      const { a, b, current } = this.state.injection;
      const into =
        (this.plan.ideal.isBehind(index, a) ? current : 0) - (this.plan.ideal.isBehind(index, b) ? current : 0);
      row[this.rows.firstChannel] = (row[this.rows.firstChannel] as number) - into;
    }
    return signalOfRow(row, this, noise);
  }

  /** A capacitor's own voltage (behind its ESR), V, by its place in `compiled.capacitors`. */
  capacitorVoltage(position: number): ExponentialSum {
    const capacitor =
      this.plan.capacitors[this.plan.capacitorOf[this.compiled.capacitors[position] as number] as number];
    const signal = capacitor === undefined ? undefined : this.voltage(capacitor.a, capacitor.b);
    return signal instanceof ExponentialSum ? signal : ExponentialSum.constant(this.startVoltages[position] as number);
  }

  // ---------------------------------------------------------------- building

  private fillNetwork(): void {
    const { plan, network, numbers, values, state } = this;
    for (let k = 0; k < plan.branches.length; k += 1) {
      const branch = plan.branches[k];
      const edge = plan.branchEdge[k] as number;
      if (branch === undefined || edge < 0) continue;
      const g = numbers.conductance(branch);
      const towards = branch.ma < branch.mb ? g : -g;
      network.add(edge, g);
      const volts = numbers.emf(branch);
      if (volts !== 0) network.drive(edge, towards * volts);
      if (branch.channel > 0) network.drive(edge, towards * numbers.fadingEmf(branch), branch.channel);
    }
    for (const { element, ma, mb, channel } of plan.currents) {
      // Across two islands there is no voltage that could drive a load: it draws nothing.
      if (plan.islandOf[ma] !== plan.islandOf[mb]) continue;
      const power = state.powerCurrents?.get(element.index);
      const constant = element.load === 'power' ? (power?.constant ?? 0) : (values[element.primary] as number);
      network.inject(ma, -constant);
      network.inject(mb, constant);
      if (channel === 0 || power === undefined) continue;
      power.fading.forEach((amperes, k) => {
        network.inject(ma, -amperes, channel + k);
        network.inject(mb, amperes, channel + k);
      });
    }
    if (state.injection !== undefined) {
      network.inject(plan.merged[state.injection.a] as number, state.injection.current);
      network.inject(plan.merged[state.injection.b] as number, -state.injection.current);
    }
  }

  /** V across a capacitor's merged nodes just after the start. */
  private startVoltage({ position, a, b }: PlannedCapacitor): number {
    return (this.startVoltages[position] as number) - (this.offsets[a] as number) + (this.offsets[b] as number);
  }

  private shareCharge(): { voltages: readonly number[]; lost: number } {
    const { capacitors } = this.plan;
    if (!this.plan.mayShareCharge) return { voltages: this.state.capacitorVoltages, lost: 0 };
    const voltages = this.state.capacitorVoltages.slice();
    const result = sharedCharge({
      capacitors: capacitors.map(({ element, position, a, b, ma, mb }) => ({
        a: ma,
        b: mb,
        c: this.values[element.primary] as number,
        offset: (this.offsets[a] as number) - (this.offsets[b] as number),
        before: voltages[position] as number,
      })),
    });
    if (result.infinite.length > 0) throw this.infiniteCurrent(result.infinite);
    capacitors.forEach(({ position }, k) => {
      voltages[position] = result.after[k] as number;
    });
    return { voltages, lost: result.energyLost };
  }

  private infiniteCurrent(infinite: readonly number[]): CircuitFault {
    const { plan, compiled } = this;
    const capacitors = infinite.flatMap((k) => plan.capacitors[k] ?? []);
    const edges = capacitors.map(({ element, a, b }) => ({ element: element.index, a, b }));
    const loop = new Set(edges.flatMap((edge) => loopThrough(edge, [...plan.ideal.edges, ...edges])));
    const elements = compiled.elements.filter(({ index }) => loop.has(index));
    return idealLoopFault(elements, this.state.step);
  }

  // ---------------------------------------------------------------- reading

  /** Row of the merged nodes' difference, offsets left out; undefined: separate islands. */
  private difference(a: number, b: number): Row | undefined {
    const ma = this.plan.merged[a] as number;
    const mb = this.plan.merged[b] as number;
    return this.plan.islandOf[ma] === this.plan.islandOf[mb] ? this.rows.drop(ma, mb).slice() : undefined;
  }

  private get noise(): number {
    this.rounding ??= roundingNoise(this.compiled, this.values, this.startVoltages);
    return this.rounding;
  }

  /** A by which a current may be off: a resistance's is a difference of potentials over it, a capacitor's the slope of one. */
  private noiseOf(index: number): number {
    const capacitor = this.plan.capacitors[this.plan.capacitorOf[index] as number];
    if (capacitor !== undefined)
      return this.noise * (this.values[capacitor.element.primary] as number) * Math.max(0, ...this.rates);
    const branch = this.plan.branches[this.plan.branchOf[index] as number];
    return branch === undefined ? 0 : this.noise * this.numbers.conductance(branch);
  }

  /** Current from a to b through an element that is not an ideal connection; undefined: none. */
  private currentRow(index: number): Row | undefined {
    if (this.modes[index] === Mode.absent) return undefined;
    const channel = this.rows.firstChannel;
    const capacitor = this.plan.capacitors[this.plan.capacitorOf[index] as number];
    if (capacitor !== undefined) return this.chargingRow(capacitor);
    const branch = this.plan.branches[this.plan.branchOf[index] as number];
    if (branch !== undefined) {
      if (this.plan.islandOf[branch.ma] !== this.plan.islandOf[branch.mb]) return undefined;
      const row = this.rows.drop(branch.ma, branch.mb).slice();
      row[channel] = (row[channel] as number) + this.numbers.emf(branch);
      if (branch.channel > 0)
        row[channel + branch.channel] = (row[channel + branch.channel] as number) + this.numbers.fadingEmf(branch);
      const g = this.numbers.conductance(branch);
      for (let i = 0; i < row.length; i += 1) row[i] = (row[i] as number) * g;
      return row;
    }
    const load = this.plan.currents[this.plan.currentOf[index] as number];
    if (load === undefined || this.plan.islandOf[load.ma] !== this.plan.islandOf[load.mb]) return undefined;
    const row = this.rows.empty();
    const power = this.state.powerCurrents?.get(index);
    row[channel] =
      load.element.load === 'power' ? (power?.constant ?? 0) : (this.values[load.element.primary] as number);
    power?.fading.forEach((amperes, k) => {
      row[channel + load.channel + k] = amperes;
    });
    return row;
  }

  /** i = C·dv/dt: the mode shares become slope shares, what is constant drops out. */
  private chargingRow(capacitor: PlannedCapacitor): Row | undefined {
    const across = this.difference(capacitor.a, capacitor.b);
    if (across === undefined) return undefined;
    const row = this.rows.empty();
    const farads = this.values[capacitor.element.primary] as number;
    const n = this.rates.length;
    for (let i = 0; i < n; i += 1) row[n + i] = (across[i] as number) * farads;
    // A fading drive moves the capacitor's terminals with it: −μ times its share.
    for (let c = 1; c < this.channels; c += 1)
      row[2 * n + c] = -farads * (this.channelRates[c] as number) * (across[2 * n + c] as number);
    return row;
  }
}

function channelRatesOf(plan: StatePlan, { powerCurrents }: StateStart): readonly number[] {
  if (powerCurrents === undefined) return plan.channelRates;
  const rates = [...plan.channelRates];
  for (const { element, channel } of plan.currents) {
    const rate = powerCurrents.get(element.index)?.rate ?? 0;
    if (channel > 0) for (let k = 0; k < FADINGS; k += 1) rates[channel + k] = (k + 1) * rate;
  }
  return rates;
}
