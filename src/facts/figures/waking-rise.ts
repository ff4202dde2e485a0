import type { Load } from '../../circuit/model.js';
import type { Directions } from '../../transient/bounds.js';
import type { Box } from '../../transient/box.js';
import {
  type CompiledCircuit,
  type CompiledElement,
  Mode,
  type Modes,
  type Values,
} from '../../transient/compiled-circuit.js';
import { CURRENT_LOAD_KNEE } from '../../transient/load-knee.js';
import type { Pair } from '../../transient/sign-question.js';
import { StateSolution } from '../../transient/state-solution.js';
import { withoutSources } from '../../transient/without-sources.js';
import { type Span, worstOverRange } from '../../transient/worst-over-range.js';
import { corner } from './heat-bounds.js';
import { integral } from './integral.js';

export interface WakingQuestion {
  readonly compiled: CompiledCircuit;
  readonly box: Box;
  /** Of the rise, every load at work. */
  readonly modes: Modes;
  readonly link: Pair;
  /** All loads that are no plain resistances, across the link's one capacitor: see `wakingLoads`. */
  readonly loads: readonly CompiledElement[];
  /** Of the time of the rise, whatever law the loads have; what the accumulators' voltages do, which add up to one, is not asked. */
  readonly directions: Directions;
  /** V of the accumulators together. */
  readonly openCircuit: (values: Values) => number;
  readonly isSummed: (index: number) => boolean;
}

/** A stretch of the link's ratio in which every load keeps to one law. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  /** 1/s that the ratio rises by at least. */
  readonly speed: (ratio: number) => number;
}

/** Relative; what a quadrature may be off. */
const QUADRATURE = 1e-8;
/** Of the speed that the rise begins with: as slow as this it counts as never getting on. */
const STANDSTILL = 1e-6;
const ROUNDS = 200;
/** (2/3)^35 is below a millionth. */
const THIRDS = 35;

/**
 * What nothing lies beyond of a rise in which loads wake on the way: a load that sleeps is woken at a lower ratio by a higher voltage and
 * draws less then, so the worst voltage of the pack is none of its ends.
 *
 * One capacitor, all such loads across it: its ratio x to the open-circuit voltage obeys x′ = λ·(s − x) − k·Σ d(x), d what a load draws
 * over the open-circuit voltage. Parts other than the pack's voltage have their worst ends, whatever the laws (comparison of
 * differential equations). Of a part of the pack's range the worst voltage is taken at each x by itself: the lowest at which the load is
 * awake there. A rise that is never slower than that is no longer than ∫ dx/x′, and passes every x up to which x′ stays above 0. On each
 * stretch x′ is concave (a straight line less convex demands), so its ends tell whether it is. The worst part is halved until the bound
 * is as good as reached.
 *
 * Behind an ESR the loads see a little more than the capacitor, at most as much as at the first instant: they are woken by so much sooner.
 */
export class WakingRise {
  private readonly values: Values;
  /** V, of the accumulators together. */
  private readonly whole: Span;
  /** The ratio that the capacitor ends at without the loads. */
  private readonly steady: number;
  /** 1/s, at which it gets there. */
  private readonly rate: number;
  /** 1/s of ratio for each S that the loads take. */
  private readonly slowed: number;
  /** By how much of a ratio the loads see more than the capacitor holds, at most. */
  private readonly ahead: number;
  /** The highest ratio that the loads ever see. */
  private readonly most: number;

  private constructor(
    private readonly question: WakingQuestion,
    values: Values,
    first: Values,
  ) {
    const { compiled, box, openCircuit, isSummed, loads, modes, link } = question;
    this.values = values;
    const ends = ['low', 'high'] as const;
    const [lowest, highest] = ends.map((end) => {
      const at = values.slice();
      for (const parameter of box.uncertain) if (isSummed(parameter.index)) at[parameter.index] = parameter[end];
      return openCircuit(at);
    }) as [number, number];
    this.whole = { lowest, highest };
    const idle = modes.slice();
    for (const { index } of loads) idle[index] = Mode.open;
    const empty = { capacitorVoltages: compiled.capacitors.map(() => 0) };
    const position = compiled.capacitors.findIndex((index) => modes[index] !== Mode.absent);
    const charged = new StateSolution(compiled, values, idle, empty).capacitorVoltage(position);
    const total = openCircuit(values);
    this.steady = Math.abs(charged.limit()) / total;
    this.rate = Math.abs(charged.derivative().at(0)) / total / this.steady;
    const injection = { a: link.a, b: link.b, current: 1 };
    const fed = new StateSolution(compiled, withoutSources(compiled, values), idle, { ...empty, injection });
    this.slowed = Math.abs(fed.capacitorVoltage(position).derivative().at(0));
    const port = new StateSolution(compiled, first, idle, empty).voltage(link.a, link.b);
    const [soonest, last] = typeof port === 'string' ? [0, 0] : [port.at(0), port.limit()];
    this.ahead = Math.abs(soonest) / openCircuit(first);
    this.most = Math.abs(last) / openCircuit(first) + this.ahead;
  }

  /** undefined: a direction is not told, or a load bends where this does not look. */
  static of(question: WakingQuestion): WakingRise | undefined {
    const { compiled, loads, directions, isSummed } = question;
    const told: Directions = (index) => {
      if (isSummed(index)) return 0;
      return compiled.parameters[index]?.field === 'esr' ? 1 : directions(index);
    };
    // What the capacitor's own resistance lets the loads see at first is most where all else feeds best.
    const sooner: Directions = (index) => (compiled.parameters[index]?.field === 'esr' ? -1 : told(index));
    const values = corner(question.box, told, 'max');
    const first = corner(question.box, sooner, 'min');
    const within = loads.every(({ source }) => {
      const { startsAbove, stopsBelow } = source as Load;
      return [startsAbove, stopsBelow].every((volts) => volts <= 0 || volts >= CURRENT_LOAD_KNEE);
    });
    return values === undefined || first === undefined || !within ? undefined : new WakingRise(question, values, first);
  }

  /** s to a ratio at most; Infinity: it may never be reached. */
  timeAtMost(ratio: number): number {
    return worstOverRange(this.whole, (span) => this.timeIn(span, ratio), 1) * (1 + QUADRATURE);
  }

  /** What the ratio ends at, or gets to again and again, at least. */
  ratioAtLeast(): number {
    return worstOverRange(this.whole, (span) => this.ratioIn(span), -1);
  }

  private timeIn(span: Span, ratio: number): number {
    let seconds = 0;
    for (const { from, to, speed } of this.stretches(span, 'startsAbove', ratio)) {
      if (!(Math.min(speed(from), speed(to)) > STANDSTILL * this.rate)) return Number.POSITIVE_INFINITY;
      seconds += integral((x) => 1 / speed(x), from, to);
    }
    return seconds;
  }

  private ratioIn(span: Span): number {
    const risen = this.passedIn(span);
    // Awake whatever the voltage, none can wake beyond and pull it down again.
    const awake = this.loads.every(
      (load) => load.startsAbove <= 0 || risen >= load.startsAbove / this.lowestFor(span, load),
    );
    return awake ? risen : this.heldIn(span, risen);
  }

  /** How far it gets at least, each load asleep below where it starts. */
  private passedIn(span: Span): number {
    for (const { from, to, speed } of this.stretches(span, 'startsAbove', this.steady)) {
      if (!(speed(from) > 0)) return from;
      if (!(speed(to) > 0)) return lastAbove(speed, from, to);
    }
    return this.steady;
  }

  /**
   * What a ratio that has got so far and is pulled down by loads that wake beyond does not fall below: the highest, up to there, at which it
   * would not fall with every load awake that has not stopped.
   */
  private heldIn(span: Span, risen: number): number {
    for (const { from, to, speed } of this.stretches(span, 'stopsBelow', risen).reverse()) {
      if (speed(to) >= 0) return to;
      const top = summit(speed, from, to);
      if (speed(top) > 0) return lastAbove(speed, top, to);
    }
    return 0;
  }

  private get loads(): readonly Load[] {
    return this.question.loads.map(({ source }) => source as Load);
  }

  /** V, the lowest of the pack at which a load may be awake at all. */
  private lowestFor({ lowest }: Span, { startsAbove }: Load): number {
    return Math.max(lowest, startsAbove / this.most);
  }

  private stretches(span: Span, wakes: 'startsAbove' | 'stopsBelow', until: number): Stretch[] {
    const { ahead } = this;
    const { lowest, highest } = span;
    const knee = CURRENT_LOAD_KNEE / lowest;
    const marks = this.loads.flatMap((load) => [
      load[wakes] / highest - ahead,
      load[wakes] / this.lowestFor(span, load) - ahead,
    ]);
    const inside = [...new Set([knee, ...marks])].filter((mark) => mark > 0 && mark < until).sort((a, b) => a - b);
    const ends = [0, ...inside, until];
    return ends.slice(1).map((to, k) => {
      const from = ends[k] as number;
      const laws = this.question.loads.map((load) => this.demandOf(span, load, wakes, (from + to) / 2));
      const speed = (x: number): number =>
        this.rate * (this.steady - x) - this.slowed * laws.reduce((sum, law) => sum + law(x), 0);
      return { from, to, speed };
    });
  }

  /** S that a load takes at a ratio for each V of open-circuit voltage, at the worst of those at which it is awake. */
  private demandOf(
    span: Span,
    { primary, load, source }: CompiledElement,
    wakes: 'startsAbove' | 'stopsBelow',
    within: number,
  ): (ratio: number) => number {
    const { ahead } = this;
    const { highest } = span;
    const value = this.values[primary] as number;
    const edge = (source as Load)[wakes];
    const lowest = this.lowestFor(span, source as Load);
    if (lowest > highest || (edge > 0 && (within + ahead) * highest <= edge)) return () => 0;
    if (load === 'resistance') return (x) => (x + ahead) / value;
    // Below its knee it is a resistance.
    if (edge <= 0 && within * lowest < CURRENT_LOAD_KNEE)
      return load === 'power' ? (x) => (value * x) / CURRENT_LOAD_KNEE ** 2 : (x) => (value * x) / CURRENT_LOAD_KNEE;
    const isAlways = edge <= 0 || (within + ahead) * lowest >= edge;
    const volts = isAlways ? () => lowest : (x: number) => edge / (x + ahead);
    return load === 'power' ? (x) => value / (x * volts(x) ** 2) : (x) => value / volts(x);
  }
}

/** The last place at which a concave function is above 0, which it is at `from` and is not at `to`. */
function lastAbove(f: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let round = 0; round < ROUNDS && high - low > Number.EPSILON * high; round += 1) {
    const middle = (low + high) / 2;
    if (f(middle) > 0) low = middle;
    else high = middle;
  }
  return low;
}

/** Where a concave function is largest, to a millionth of the way: the search by thirds. */
function summit(f: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let round = 0; round < THIRDS; round += 1) {
    const third = (high - low) / 3;
    if (f(low + third) < f(high - third)) low += third;
    else high -= third;
  }
  return f(from) > f((low + high) / 2) ? from : (low + high) / 2;
}
