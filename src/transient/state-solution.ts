import type { CircuitFault } from '../circuit/fault.js';
import { sharedCharge } from './charge-sharing.js';
import { type CompiledCircuit, type CompiledElement, Mode, type Modes, type Values } from './compiled-circuit.js';
import { ConductanceNetwork } from './conductance-network.js';
import { ExponentialSum } from './exponential-sum.js';
import { generalModes } from './general-modes.js';
import { idealLoopFault } from './ideal-loop-fault.js';
import { loopThrough } from './loop-through.js';
import { CURRENT_LOAD_KNEE } from './load-knee.js';
import { addToRow, emptyRow, type Row } from './row.js';
import type { SolvedIsland } from './solved-island.js';
import { starModes } from './state-modes.js';
import { type PlannedBranch, type PlannedIsland, planOf, type StatePlan } from './state-plan.js';

/** Why a signal has no value. */
export type NoValue = 'separate-islands' | 'indeterminate-loop';

export interface StateStart {
  /** V of each capacitor just before, in the order of `compiled.capacitors`. */
  readonly capacitorVoltages: Float64Array;
  /** e^(−t/decay) of each machine at the start, by element index; absent: 1. */
  readonly machineScale?: ReadonlyMap<number, number>;
  /** What each constant-power load draws, by element index: constant + fading·e^(−rate·t), A and 1/s (a rate below 0 grows). */
  readonly powerCurrents?: ReadonlyMap<number, PowerCurrent>;
  /** V put in series with a resistance, by element index: a probe for sensitivities. */
  readonly seriesVoltage?: ReadonlyMap<number, number>;
  /** A current put into node a and taken out of node b, A: a probe for sensitivities. */
  readonly injection?: { readonly a: number; readonly b: number; readonly current: number };
  /** Number of the step, for messages. */
  readonly step?: number;
}

/** The course of a constant-power load's current over a short while. */
export interface PowerCurrent {
  readonly constant: number;
  readonly fading: number;
  readonly rate: number;
}

/** Relative distance of a drive's rate from a mode's from which on their response is no difference of nearly equal terms. */
const APART = 0.5;

/** Ω in series with a machine whose own is not stated: a source without any would fight the capacitor across it. */
const LEAST_MACHINE_RESISTANCE = 1e-6;

/**
 * The exact behaviour of one switch state from its start on: every voltage and current as a sum of exponentials.
 *
 * Construction does the work: purely resistive nodes taken out, modes of each island found.
 * @throws CircuitFault for a loop that would need infinite current
 */
export class StateSolution {
  /** 1/s, of all islands together. */
  readonly rates: Float64Array;
  /** J lost at the start where ideal capacitors were joined at different voltages. */
  readonly energyLost: number;
  /** V of each capacitor just after the start, in the order of `compiled.capacitors`. */
  readonly startVoltages: Float64Array;
  /** Largest relative error expected of a rate; 0 where the accurate elimination applied throughout. */
  readonly estimatedError: number;

  private readonly plan: StatePlan;
  private readonly network: ConductanceNetwork;
  private readonly channels: number;
  /** 1/s; channel 0 is constant. */
  private readonly channelRates: readonly number[];
  /** Offset of each node from its merged node, V. */
  private readonly offsets: Float64Array;
  private readonly rows: (Row | undefined)[];
  private readonly start: Float64Array;
  /** Drive of mode i by channel c at [c·n + i]. */
  private readonly drive: Float64Array;

  constructor(
    readonly compiled: CompiledCircuit,
    readonly values: Values,
    readonly modes: Modes,
    private readonly state: StateStart,
  ) {
    const plan = planOf(compiled, modes, values);
    this.plan = plan;
    const loop = plan.contradiction(values);
    if (loop !== undefined) throw idealLoopFault(loop, state.step);
    this.channelRates = channelRatesOf(plan, state);
    this.channels = this.channelRates.length;
    this.offsets = new Float64Array(plan.nodeCount);
    if (!plan.withoutOffsets)
      for (let node = 0; node < plan.nodeCount; node += 1) this.offsets[node] = plan.offset(node, values);
    this.network = new ConductanceNetwork(plan.size, this.channels);
    this.rows = new Array<Row | undefined>(plan.size).fill(undefined);
    this.fillNetwork();
    const { voltages, lost } = this.shareCharge();
    this.startVoltages = voltages;
    this.energyLost = lost;

    for (const node of plan.resistive) this.network.takeOut(node);
    const solved = plan.islands
      .filter(({ capacitors }) => capacitors.length > 0)
      .map((island) => this.solveIsland(island));
    const n = solved.reduce((sum, { nodes }) => sum + nodes.length, 0);
    this.rates = new Float64Array(n);
    this.start = new Float64Array(n);
    this.drive = new Float64Array(n * this.channels);
    let base = 0;
    for (const part of solved) {
      this.place(part, base, n);
      base += part.nodes.length;
    }
    this.estimatedError = solved.reduce((largest, { error }) => Math.max(largest, error), 0);
  }

  /** v(a) − v(b) for two nodes of the circuit. */
  voltage(a: number, b: number): ExponentialSum | NoValue {
    const row = this.difference(a, b);
    if (row === undefined) return 'separate-islands';
    row.channels[0] = (row.channels[0] as number) + (this.offsets[a] as number) - (this.offsets[b] as number);
    return this.signal(row);
  }

  /** The current through an element, positive from its first node to its second, A. */
  current(index: number): ExponentialSum | NoValue {
    if ((this.plan.idealOf[index] as number) < 0) {
      const row = this.currentRow(index);
      return row === undefined ? ExponentialSum.constant(0) : this.signal(row);
    }
    const carried = this.plan.carriedBy(index);
    if (carried === 'indeterminate-loop') return carried;
    const row = this.emptyRow();
    for (const { element, sign } of carried) {
      const flow = this.currentRow(element);
      if (flow !== undefined) addToRow(row, flow, sign);
    }
    return this.signal(row);
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
    const { plan, network, values, state } = this;
    for (const branch of plan.branches) {
      if (branch.ma === branch.mb) continue;
      const g = this.conductance(branch);
      network.add(branch.ma, branch.mb, g);
      network.drive(branch.ma, branch.mb, g * this.emf(branch));
      if (branch.channel > 0) network.drive(branch.ma, branch.mb, g * this.fadingEmf(branch), branch.channel);
    }
    for (const { element, ma, mb, channel } of plan.currents) {
      // Across two islands there is no voltage that could drive a load: it draws nothing.
      if (plan.islandOf[ma] !== plan.islandOf[mb]) continue;
      const power = state.powerCurrents?.get(element.index);
      const constant = element.load === 'power' ? (power?.constant ?? 0) : (values[element.primary] as number);
      network.inject(ma, -constant);
      network.inject(mb, constant);
      if (channel === 0 || power === undefined) continue;
      network.inject(ma, -power.fading, channel);
      network.inject(mb, power.fading, channel);
    }
    if (state.injection !== undefined) {
      network.inject(plan.merged[state.injection.a] as number, state.injection.current);
      network.inject(plan.merged[state.injection.b] as number, -state.injection.current);
    }
  }

  /** S */
  private conductance({ element, resistance }: PlannedBranch): number {
    const value = this.values[resistance] as number;
    if (element.load === 'current') return value / CURRENT_LOAD_KNEE;
    if (element.load === 'power') return value / CURRENT_LOAD_KNEE ** 2;
    return 1 / (element.kind === 'machine' ? Math.max(value, LEAST_MACHINE_RESISTANCE) : value);
  }

  /** V in series that drives current from a to b, offsets of the ends included. */
  private emf({ element, a, b, channel }: PlannedBranch): number {
    let volts =
      (this.offsets[a] as number) - (this.offsets[b] as number) + (this.state.seriesVoltage?.get(element.index) ?? 0);
    if (element.kind === 'accumulator') volts -= this.values[element.primary] as number;
    if (element.kind === 'machine' && channel === 0) volts -= this.backEmf(element);
    return volts;
  }

  private fadingEmf({ element }: PlannedBranch): number {
    return -this.backEmf(element);
  }

  private backEmf(element: CompiledElement): number {
    return (this.values[element.primary] as number) * (this.state.machineScale?.get(element.index) ?? 1);
  }

  private shareCharge(): { voltages: Float64Array; lost: number } {
    const { capacitors } = this.plan;
    const voltages = Float64Array.from(this.state.capacitorVoltages);
    // One capacitor whose ends are apart closes no loop: nothing can move.
    if (capacitors.length < 2 && capacitors.every(({ ma, mb }) => ma !== mb)) return { voltages, lost: 0 };
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
    const loop = new Set(edges.flatMap((edge) => loopThrough(edge, [...plan.ideal, ...edges])));
    const elements = compiled.elements.filter(({ index }) => loop.has(index));
    return idealLoopFault(elements, this.state.step);
  }

  private solveIsland(island: PlannedIsland): SolvedIsland {
    const branches = island.capacitors.map(({ element, position, a, b, ma, mb }) => ({
      a: ma,
      b: mb,
      c: this.values[element.primary] as number,
      voltage: (this.startVoltages[position] as number) - (this.offsets[a] as number) + (this.offsets[b] as number),
    }));
    const { common } = island;
    if (common === undefined) return generalModes(this.network, island.reference, branches);
    const capacitance = new Map<number, number>();
    const potential = new Map<number, number>();
    for (const { a, b, c, voltage } of branches) {
      const node = a === common ? b : a;
      capacitance.set(node, (capacitance.get(node) ?? 0) + c);
      potential.set(node, a === common ? -voltage : voltage);
    }
    const nodes = [...capacitance.keys()].sort((x, y) => x - y);
    const farads = Float64Array.from(nodes, (node) => capacitance.get(node) as number);
    const injected = new Float64Array(nodes.length * this.channels);
    for (let c = 0; c < this.channels; c += 1) {
      nodes.forEach((node, k) => {
        injected[c * nodes.length + k] = this.network.injection(node, c) / (farads[k] as number);
      });
    }
    const modes = starModes(this.network, nodes, farads);
    return {
      nodes,
      modes,
      injected,
      start: Float64Array.from(nodes, (node) => potential.get(node) as number),
      dependent: [],
      error: 0,
    };
  }

  /** Puts an island's modes behind those of the islands before it. */
  private place(part: SolvedIsland, base: number, n: number): void {
    const k = part.nodes.length;
    const { rates, weights, steady, shapes } = part.modes;
    for (let i = 0; i < k; i += 1) {
      const rate = rates[i] as number;
      this.rates[base + i] = rate;
      let start = 0;
      for (let j = 0; j < k; j += 1) start += (weights[i * k + j] as number) * (part.start[j] as number);
      this.start[base + i] = start;
      for (let c = 0; c < this.channels; c += 1) {
        let level = 0;
        let injected = 0;
        for (let j = 0; j < k; j += 1) {
          const weight = weights[i * k + j] as number;
          level += weight * (steady[c * k + j] as number);
          injected += weight * (part.injected[c * k + j] as number);
        }
        this.drive[c * n + base + i] = rate * level + injected;
      }
    }
    part.nodes.forEach((node, j) => {
      const row = emptyRow(n, this.channels);
      for (let i = 0; i < k; i += 1) row.modes[base + i] = shapes[j * k + i] as number;
      this.rows[node] = row;
    });
    for (const each of part.dependent) {
      const row = emptyRow(n, this.channels);
      each.shares.forEach((share, j) => {
        for (let i = 0; i < k; i += 1)
          row.modes[base + i] = (row.modes[base + i] as number) + share * (shapes[j * k + i] as number);
      });
      each.channels.forEach((value, c) => {
        row.channels[c] = value;
      });
      this.rows[each.node] = row;
      for (const member of each.carries) {
        const shifted = this.rows[member];
        if (shifted !== undefined) addToRow(shifted, row, 1);
      }
    }
  }

  // ---------------------------------------------------------------- reading

  private emptyRow(): Row {
    return emptyRow(this.rates.length, this.channels);
  }

  /** A merged node's potential relative to its island's reference. */
  private row(node: number): Row {
    const known = this.rows[node];
    if (known !== undefined) return known;
    const row = this.emptyRow();
    const { network } = this;
    const total = network.isOut(node) ? network.total(node) : 0;
    if (total > 0) {
      for (let other = 0; other < network.size; other += 1) {
        const g = network.conductance(node, other);
        if (g === 0 || !network.follows(node, other)) continue;
        addToRow(row, this.row(other), g / total);
        for (let c = 0; c < this.channels; c += 1) {
          row.channels[c] = (row.channels[c] as number) - network.shortCircuit(node, other, c) / total;
        }
      }
      for (let c = 0; c < this.channels; c += 1) {
        row.channels[c] = (row.channels[c] as number) + network.injection(node, c) / total;
      }
    }
    this.rows[node] = row;
    return row;
  }

  /** Row of the merged nodes' difference, offsets left out; undefined: separate islands. */
  private difference(a: number, b: number): Row | undefined {
    const ma = this.plan.merged[a] as number;
    const mb = this.plan.merged[b] as number;
    const row = this.emptyRow();
    if (ma === mb) return row;
    if (this.plan.islandOf[ma] !== this.plan.islandOf[mb]) return undefined;
    addToRow(row, this.row(ma), 1);
    addToRow(row, this.row(mb), -1);
    return row;
  }

  /** Current from a to b through an element that is not an ideal connection; undefined: none. */
  private currentRow(index: number): Row | undefined {
    if (this.modes[index] === Mode.absent) return undefined;
    const capacitor = this.plan.capacitors[this.plan.capacitorOf[index] as number];
    if (capacitor !== undefined) {
      const across = this.difference(capacitor.a, capacitor.b);
      if (across === undefined) return undefined;
      // i = C·dv/dt: the mode shares become slope shares, what is constant drops out.
      const row = this.emptyRow();
      const farads = this.values[capacitor.element.primary] as number;
      for (let i = 0; i < row.slopes.length; i += 1) row.slopes[i] = (across.modes[i] as number) * farads;
      // A fading drive moves the capacitor's terminals with it: −μ times its share.
      for (let c = 1; c < this.channels; c += 1)
        row.channels[c] = -farads * (this.channelRates[c] as number) * (across.channels[c] as number);
      return row;
    }
    const branch = this.plan.branches[this.plan.branchOf[index] as number];
    if (branch !== undefined) {
      const row = this.difference(branch.a, branch.b);
      if (row === undefined) return undefined;
      const g = this.conductance(branch);
      row.channels[0] = (row.channels[0] as number) + this.emf(branch);
      if (branch.channel > 0)
        row.channels[branch.channel] = (row.channels[branch.channel] as number) + this.fadingEmf(branch);
      const current = this.emptyRow();
      addToRow(current, row, g);
      return current;
    }
    const load = this.plan.currents[this.plan.currentOf[index] as number];
    if (load === undefined || this.plan.islandOf[load.ma] !== this.plan.islandOf[load.mb]) return undefined;
    const row = this.emptyRow();
    const power = this.state.powerCurrents?.get(index);
    row.channels[0] =
      load.element.load === 'power' ? (power?.constant ?? 0) : (this.values[load.element.primary] as number);
    if (load.channel > 0) row.channels[load.channel] = power?.fading ?? 0;
    return row;
  }

  private signal(row: Row): ExponentialSum {
    const n = this.rates.length;
    const rates: number[] = [];
    const coefficients: number[] = [];
    const modeRates: number[] = [];
    const driveRates: number[] = [];
    const driven: number[] = [];
    const { channelRates } = this;
    const plain = (rate: number, coefficient: number): void => {
      if (coefficient === 0) return;
      const known = rates.indexOf(rate);
      if (known >= 0) coefficients[known] = (coefficients[known] as number) + coefficient;
      else {
        rates.push(rate);
        coefficients.push(coefficient);
      }
    };
    const withDrive = (mode: number, drive: number, coefficient: number): void => {
      if (coefficient === 0) return;
      // Far apart the driven mode is two exponentials; the one of the drive may then cancel with its like.
      if (drive !== 0 && Math.abs(mode - drive) > APART * Math.max(Math.abs(mode), Math.abs(drive))) {
        plain(drive, coefficient / (mode - drive));
        plain(mode, -coefficient / (mode - drive));
        return;
      }
      modeRates.push(mode);
      driveRates.push(drive);
      driven.push(coefficient);
    };
    channelRates.forEach((rate, c) => {
      plain(rate, row.channels[c] as number);
    });
    for (let i = 0; i < n; i += 1) {
      const share = row.modes[i] as number;
      const slope = row.slopes[i] as number;
      if (share === 0 && slope === 0) continue;
      const rate = this.rates[i] as number;
      const start = this.start[i] as number;
      const constant = this.drive[i] as number;
      // y = y₀·e^(−λt) + c·φ(λ, 0, t), so y' = (c − λ·y₀)·e^(−λt).
      plain(rate, share * start + slope * (constant - rate * start));
      withDrive(rate, 0, share * constant);
      for (let c = 1; c < channelRates.length; c += 1) {
        const d = this.drive[c * n + i] as number;
        const drive = channelRates[c] as number;
        // Likewise for a fading drive: φ' = e^(−λt) − μ·φ.
        plain(rate, slope * d);
        withDrive(rate, drive, (share - slope * drive) * d);
      }
    }
    return new ExponentialSum(rates, coefficients, modeRates, driveRates, driven);
  }
}

function channelRatesOf(plan: StatePlan, { powerCurrents }: StateStart): readonly number[] {
  if (powerCurrents === undefined) return plan.channelRates;
  const rates = [...plan.channelRates];
  for (const { element, channel } of plan.currents)
    if (channel > 0) rates[channel] = powerCurrents.get(element.index)?.rate ?? 0;
  return rates;
}
