import type { Step } from '../../circuit/model.js';
import type { CompiledCircuit, Modes, Values } from '../../transient/compiled-circuit.js';
import { ExponentialSum } from '../../transient/exponential-sum.js';
import { integralOfSquare, lastAbove, type Piece, piecesOf } from '../../transient/piecewise.js';
import { StateSolution } from '../../transient/state-solution.js';
import { runTimeline, type Timeline } from '../../transient/timeline.js';
import { withoutSources } from '../../transient/without-sources.js';
import type { Shares } from './charged-shares.js';

/** What is watched in a fall: a capacitor's own voltage (by its position among the capacitors), or that between two nodes. */
export type Watched = { readonly capacitor: number } | { readonly a: number; readonly b: number };

/** One fall at one set of values: from the instant at which the isolation relays open. */
export class FallRun {
  private readonly timeline: Timeline;
  private drained: StateSolution | undefined;

  /**
   * @param starts how every element stands once the isolation relays have opened
   * @param startVoltage V, the highest that can stand on the link
   * @param share of it on each capacitor, by id
   * @param closesLate s after the isolation relays' opening at which a discharge contact closes, by id; none: at once
   */
  constructor(
    private readonly compiled: CompiledCircuit,
    private readonly values: Values,
    starts: Modes,
    private readonly startVoltage: number,
    share: Shares,
    closesLate: ReadonlyMap<string, number>,
  ) {
    const steps: Step[] = [...closesLate]
      .sort(([, x], [, y]) => x - y)
      .map(([id, at]) => ({ at, close: [id], open: [], release: false }));
    this.timeline = runTimeline({
      compiled,
      values,
      steps,
      until: Infinity,
      starts,
      startVoltages: new Map([...share].map(([id, ratio]) => [id, ratio * startVoltage])),
      openCircuitVoltage: startVoltage,
      phase: 'shutdown',
      withoutLoads: true,
    });
  }

  /** s after which the voltage's size stays at or below the level; Infinity: never; 0 where there is no voltage. */
  timeToLimit(watched: Watched, level: number): number {
    return lastAbove(this.voltage(watched), level, Math.max(this.startVoltage, level));
  }

  /** Size of the voltage at an instant, V; 0 where there is none. */
  voltageAt(watched: Watched, time: number): number {
    const piece = this.voltage(watched).findLast(({ start }) => start <= time);
    return piece?.signal === undefined ? 0 : Math.abs(piece.signal.at(time - piece.start));
  }

  /** Whether the two nodes have a voltage between them at all. */
  hasVoltage(watched: Watched): boolean {
    return this.voltage(watched).some(({ signal }) => signal !== undefined);
  }

  /** J that a resistance takes in the whole fall. */
  energy(element: number): number {
    return integralOfSquare(this.current(element), Infinity) * this.ohms(element);
  }

  /** W in it with the start voltage held. */
  startPower(element: number): number {
    const last = this.current(element).at(-1)?.signal;
    const first = this.current(element).reduce(
      (largest, { signal }) => Math.max(largest, Math.abs(signal?.at(0) ?? 0)),
      0,
    );
    return last === undefined ? 0 : first ** 2 * this.ohms(element);
  }

  /** s of the slowest mode once every contact is at rest; Infinity: nothing discharges. */
  timeConstant(): number {
    const rates = (this.timeline.segments.at(-1)?.solution.rates ?? []).filter((rate) => rate > 0);
    return 1 / Math.min(...rates);
  }

  /** A through a resistance at the start of what the last contact's closing begins; size. */
  startCurrent(element: number): number {
    return Math.abs(this.current(element).at(-1)?.signal?.at(0) ?? 0);
  }

  /** A that all capacitors together give at the start. */
  dischargeCurrent(): number {
    const solution = this.timeline.segments.at(-1)?.solution;
    return this.compiled.capacitors.reduce((sum, index) => {
      const signal = solution?.current(index);
      return typeof signal === 'object' ? sum + Math.abs(signal.at(0)) : sum;
    }, 0);
  }

  /** Whether anything of what stands on the capacitors flows through the element once every contact is at rest. */
  carries(element: number): boolean {
    this.drained ??= this.drainedState();
    const signal = this.drained?.current(element);
    return signal instanceof ExponentialSum && Math.abs(signal.at(0)) > 1e-12 * this.startVoltage;
  }

  /** The last state with every accumulator at 0 V: what still flows comes from the capacitors. */
  private drainedState(): StateSolution | undefined {
    const last = this.timeline.segments.at(-1)?.solution;
    if (last === undefined) return undefined;
    const still = withoutSources(this.compiled, this.values);
    return new StateSolution(this.compiled, still, last.modes, { capacitorVoltages: last.startVoltages });
  }

  /** Whether any current flows in the whole fall, also where it only begins at 0. */
  carriesEver(element: number): boolean {
    return integralOfSquare(this.current(element), Infinity) > (1e-12 * this.startVoltage) ** 2;
  }

  private ohms(element: number): number {
    return this.values[this.compiled.elements[element]?.primary ?? -1] ?? 0;
  }

  current(element: number): Piece[] {
    return piecesOf(this.timeline, (solution) => solution.current(element));
  }

  private voltage(watched: Watched): Piece[] {
    return piecesOf(this.timeline, (solution) =>
      'capacitor' in watched ? solution.capacitorVoltage(watched.capacitor) : solution.voltage(watched.a, watched.b),
    );
  }
}
