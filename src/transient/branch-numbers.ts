import type { CompiledElement, Values } from './compiled-circuit.js';
import { CURRENT_LOAD_KNEE } from './load-knee.js';
import type { PlannedBranch } from './planned.js';
import type { StateStart } from './state-start.js';

/** Ω in series with a machine whose own is not stated: a source without any would fight the capacitor across it. */
const LEAST_MACHINE_RESISTANCE = 1e-6;

/** What the branches of a switch state conduct and drive at one set of values. */
export class BranchNumbers {
  constructor(
    private readonly values: Values,
    /** V of each node from its merged node. */
    private readonly offsets: readonly number[],
    private readonly state: StateStart,
  ) {}

  /** S */
  conductance({ element, resistance }: PlannedBranch): number {
    const value = this.values[resistance] as number;
    if (element.load === 'current') return value / CURRENT_LOAD_KNEE;
    if (element.load === 'power') return value / CURRENT_LOAD_KNEE ** 2;
    return 1 / (element.kind === 'machine' ? Math.max(value, LEAST_MACHINE_RESISTANCE) : value);
  }

  /** V in series that drives current from a to b, offsets of the ends included. */
  emf({ element, a, b, channel }: PlannedBranch): number {
    let volts = (this.offsets[a] as number) - (this.offsets[b] as number);
    if (this.state.seriesVoltage !== undefined) volts += this.state.seriesVoltage.get(element.index) ?? 0;
    if (element.kind === 'accumulator') volts -= this.values[element.primary] as number;
    else if (element.kind === 'machine' && channel === 0) volts -= this.backEmf(element);
    return volts;
  }

  /** V in series of a machine that coasts down, at the start. */
  fadingEmf({ element }: PlannedBranch): number {
    return -this.backEmf(element);
  }

  private backEmf(element: CompiledElement): number {
    return (this.values[element.primary] as number) * (this.state.machineScale?.get(element.index) ?? 1);
  }
}
