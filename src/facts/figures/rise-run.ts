import { isIdealLoop } from '../../transient/ideal-loop-fault.js';
import type { Phase } from '../../circuit/model.js';
import {
  type CompiledCircuit,
  type CompiledElement,
  Mode,
  type Modes,
  type Values,
} from '../../transient/compiled-circuit.js';
import { ExponentialSum } from '../../transient/exponential-sum.js';
import {
  integralOfAll,
  integralOfSquare,
  largestSize,
  type Piece,
  piecesOf,
  repeatsSince,
  timeToReach,
} from '../../transient/piecewise.js';
import { StateSolution } from '../../transient/state-solution.js';
import { runTimeline, type Timeline } from '../../transient/timeline.js';
import type { HeatReading } from './heat-bounds.js';
import { openCircuitVoltage } from './open-circuit.js';
import type { RiseState } from './rise-state.js';

/** Share of the open-circuit voltage from which on a mode is one that the link shows: what capacitors to the chassis do is far less. */
const SHOWN = 1e-3;

/** One rise at one set of values, left on for ever, and what can be read off it. */
export class RiseRun {
  readonly timeline: Timeline;
  readonly openCircuit: number;
  readonly link: readonly Piece[];
  private readonly times = new Map<number, number>();

  constructor(
    readonly compiled: CompiledCircuit,
    readonly values: Values,
    private readonly setting: RiseSetting,
  ) {
    this.openCircuit = openCircuitVoltage(setting.chain, values);
    this.timeline = runTimeline({
      compiled,
      values,
      steps: [],
      until: Infinity,
      starts: setting.starts,
      openCircuitVoltage: this.openCircuit,
      phase: 'precharge' satisfies Phase,
    });
    const { a, b } = setting.link;
    this.link = piecesOf(this.timeline, (solution) => solution.voltage(a, b));
  }

  /** |link| for t → ∞, ratio to the open-circuit voltage; of a rise that never settles the highest. */
  steadyRatio(): number {
    const since = repeatsSince(this.timeline);
    if (since !== undefined) {
      // A load that wakes and falls asleep without end: the highest that the link gets to counts.
      const repeated = this.link.filter(({ start }) => start >= since);
      return largestSize(repeated, Infinity) / this.openCircuit;
    }
    const last = this.link[this.link.length - 1]?.signal;
    return last === undefined ? 0 : Math.abs(last.limit()) / this.openCircuit;
  }

  /** s until the link is at the ratio; Infinity: never. */
  timeTo(ratio: number): number {
    const known = this.times.get(ratio);
    if (known !== undefined) return known;
    const time = timeToReach(this.link, ratio * this.openCircuit, this.openCircuit);
    this.times.set(ratio, time);
    return time;
  }

  /** s, of the slowest mode that the link shows. */
  timeConstant(): number {
    const last = this.link[this.link.length - 1]?.signal;
    if (last === undefined) return Infinity;
    let slowest = Infinity;
    const visible = SHOWN * this.openCircuit;
    last.rates.forEach((rate, i) => {
      if (rate > 0 && Math.abs(last.coefficients[i] as number) > visible) slowest = Math.min(slowest, rate);
    });
    last.modeRates.forEach((rate, j) => {
      if (rate > 0 && Math.abs((last.driven[j] as number) / rate) > visible) slowest = Math.min(slowest, rate);
    });
    return slowest === Infinity ? Infinity : 1 / slowest;
  }

  /** s, of the slowest mode that fades, whether the link shows it or not; Infinity: none. */
  slowestTimeConstant(): number {
    const rates = this.timeline.segments.at(-1)?.solution.rates ?? [];
    return 1 / Math.min(...rates.filter((rate) => rate > 0));
  }

  /** A²s of a current up to an instant, or of all of it. */
  squared(element: number, until: number): number {
    const current = this.current(element);
    return until === Infinity ? integralOfAll(current, repeatsSince(this.timeline)) : integralOfSquare(current, until);
  }

  current(element: number): Piece[] {
    return piecesOf(this.timeline, (solution) => solution.current(element));
  }

  /** V, the highest size of the voltage between two nodes; 0 where there is none. */
  highestVoltage(a: number, b: number): number {
    return largestSize(
      piecesOf(this.timeline, (solution) => solution.voltage(a, b)),
      Infinity,
    );
  }

  /** V of each capacitor at an instant of the rise, in the order of `compiled.capacitors`. */
  private capacitorVoltages(time: number): number[] {
    const segment = this.timeline.segments.findLast(({ start }) => start <= time);
    return this.compiled.capacitors.map((_, position) =>
      segment === undefined ? 0 : valueAt(segment.solution.capacitorVoltage(position), time - segment.start),
    );
  }

  /**
   * A through the relays that close last, largest of them, just after they close with the link at the ratio.
   * Infinity: never reaches it; NaN: nothing limits it.
   */
  inrushAt(ratio: number, relays: readonly number[]): number {
    if (this.timeTo(ratio) === Infinity) return Infinity;
    return largestOf(this.closedWith(this.capacitorVoltages(this.timeTo(ratio))), relays);
  }

  /** The same with every capacitor at a voltage, V, in place of what it has at the ratio. */
  inrushFrom(voltage: number, relays: readonly number[]): number {
    const signs = this.capacitorVoltages(Infinity).map(Math.sign);
    return largestOf(this.closedWith(signs.map((sign) => sign * voltage)), relays);
  }

  /** Which elements, by id, carry anything of the inrush. */
  carriesInrush(ratio: number): (id: string) => boolean {
    const solution = this.closedWith(this.capacitorVoltages(this.timeTo(ratio)));
    return (id) => {
      const signal = solution?.current(this.compiled.byId.get(id)?.index ?? -1);
      return !(signal instanceof ExponentialSum) || Math.abs(signal.at(0)) > 1e-12 * this.openCircuit;
    };
  }

  /** What energy and power in an element follow from where one capacitor holds the whole state. */
  heatReading(element: number): HeatReading {
    const current = this.current(element);
    const signal = current.at(-1)?.signal;
    const link = this.link.at(-1)?.signal;
    return {
      timeConstant: this.timeConstant(),
      first: Math.abs(current[0]?.signal?.at(0) ?? 0),
      last: Math.abs(signal?.limit() ?? 0),
      from: Math.abs(link?.at(0) ?? 0) / this.openCircuit,
      to: this.steadyRatio(),
    };
  }

  /** The state just after the last relays have closed; undefined: it would need infinite current. */
  private closedWith(capacitorVoltages: readonly number[]): StateSolution | undefined {
    try {
      return new StateSolution(this.compiled, this.values, this.setting.modesAfter, { capacitorVoltages });
    } catch (error) {
      if (isIdealLoop(error)) return undefined;
      throw error;
    }
  }
}

function valueAt(signal: ExponentialSum, time: number): number {
  return time === Infinity ? signal.limit() : signal.at(time);
}

function largestOf(solution: StateSolution | undefined, relays: readonly number[]): number {
  if (solution === undefined) return Number.NaN;
  let largest = 0;
  for (const relay of relays) {
    const signal = solution.current(relay);
    if (!(signal instanceof ExponentialSum)) return Number.NaN;
    largest = Math.max(largest, Math.abs(signal.at(0)));
  }
  return largest;
}

export interface RiseSetting {
  /** How every element stands when the rise begins. */
  readonly starts: Modes;
  /** With the last relays closed too, loads left out. */
  readonly modesAfter: Modes;
  readonly chain: readonly { readonly index: number; readonly sign: 1 | -1 }[];
  /** Node numbers. */
  readonly link: { readonly a: number; readonly b: number };
}

/** Modes of the rise with every load awake from 0 V on and resistive: the state that directions are proved on. */
export function riseModes(compiled: CompiledCircuit, state: RiseState): Modes {
  return Uint8Array.from(compiled.elements, (element) => modeOf(element, state.closed, true));
}

export function modesAfterClosing(compiled: CompiledCircuit, state: RiseState): Modes {
  return Uint8Array.from(compiled.elements, (element) => modeOf(element, state.closedAfter, false));
}

function modeOf(element: CompiledElement, closed: ReadonlySet<string>, loads: boolean): number {
  switch (element.source.kind) {
    case 'contact':
    case 'connector':
    case 'disconnect':
      return closed.has(element.id) ? Mode.closed : Mode.open;
    case 'load':
      return loads && element.source.activeIn.includes('precharge') ? Mode.closed : Mode.open;
    case 'machine':
      return Mode.open;
    default:
      return Mode.closed;
  }
}
