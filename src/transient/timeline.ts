import type { Phase, Step } from '../circuit/model.js';
import { backEmf, machineScale } from './back-emf.js';
import { beginState } from './begin-state.js';
import { type CompiledElement, Mode } from './compiled-circuit.js';
import { type Awake, holdsOnTheEdge, nextRegionChanges, type RegionChange, regionAt } from './load-regions.js';
import { Repetition } from './repetition.js';
import type { StateSolution } from './state-solution.js';
import { timeToFall, timeToRise } from './step-times.js';
import { type Moves, SwitchPositions } from './switch-positions.js';
import { lastChanged, noStateHolds, refuseEndless } from './too-many-changes.js';
import { voltageNow } from './voltage-now.js';
import type { Segment, Timeline, TimelineEvent, TimelineInput } from './timeline-input.js';

export type { Segment, Timeline, TimelineEvent, TimelineInput } from './timeline-input.js';

/** s; the step first tried where a load of constant power has to be followed. */
const FIRST_POWER_STEP = 1e-4;
/** Rounds in which a load goes straight to the region that the voltage asks for. */
const JUMPS = 3;

/** A switch state that has begun: how it behaves, and for how many s that holds (Infinity but for loads of constant power). */
interface Current {
  readonly solution: StateSolution;
  readonly lasts: number;
}

/**
 * Runs a sequence of steps through a circuit and returns its exact behaviour, one segment a switch state.
 * @throws CircuitFault where a state would need infinite current, or where loads switch without end
 */
export function runTimeline(input: TimelineInput): Timeline {
  return new Run(input).result();
}

class Run {
  private readonly segments: Segment[] = [];
  private readonly events: TimelineEvent[] = [];
  private readonly positions: SwitchPositions;
  private readonly awake: Awake = new Set();
  private readonly isolation: readonly CompiledElement[];
  private readonly variable: readonly CompiledElement[];
  private capacitorVoltages: readonly number[];
  private time = 0;
  private released = false;
  private turningSince: number | undefined;
  private powerStep = FIRST_POWER_STEP;
  private atOnce = 0;
  /** Since the last step: what was before it waited for another. */
  private repetition = new Repetition();

  constructor(private readonly input: TimelineInput) {
    const { compiled } = input;
    this.positions = new SwitchPositions(input);
    this.capacitorVoltages = compiled.capacitors.map((index) => {
      const { source } = compiled.elements[index] as CompiledElement;
      return input.startVoltages?.get(source.id) ?? (source.kind === 'capacitor' ? source.initialVoltage : 0);
    });
    this.isolation = compiled.elements.filter(
      ({ source }) => source.kind === 'contact' && source.role === 'isolation-relay',
    );
    this.variable = compiled.elements.filter(({ kind }) => kind === 'load' || kind === 'machine');
    if (input.machinesTurn === true) this.turningSince = 0;
  }

  result(): Timeline {
    const { steps, until } = this.input;
    let current = this.begin(null);
    if (current.solution.energyLost > 0) this.record(null, { opened: [], closed: [] }, [], current);
    let index = 0;
    let armed = 0;
    for (;;) {
      refuseEndless(this.input.compiled, { segments: this.segments, events: this.events, atOnce: this.atOnce });
      const step = steps[index];
      const due = (step === undefined ? undefined : this.due(step, armed, current)) ?? Infinity;
      const returns = this.positions.nextReturn() ?? Infinity;
      const holds = this.time + current.lasts;
      const horizon = Math.min(until, due, returns, holds);
      const changes = this.changesWithin(current, horizon - this.time);
      const wait = changes[0]?.time ?? Infinity;
      if (this.time + wait < horizon) {
        this.atOnce = wait > 0 ? 0 : this.atOnce + 1;
        this.advance(current, this.time + wait);
        current = this.changeRegions(changes);
        const repeatsFrom = this.repeatsFrom();
        // A step that waits for the voltage waits for ever then; one that waits for a time does not.
        const timed = step !== undefined && step.when === undefined;
        if (repeatsFrom !== undefined && !timed && returns === Infinity && until === Infinity) {
          if (step !== undefined) this.passOver(index);
          return { segments: this.segments, events: this.events, repeatsFrom };
        }
      } else if (holds < Math.min(until, due, returns)) {
        this.advance(current, holds);
        current = this.followOn();
      } else if (until <= Math.min(due, returns) && (until === Infinity || until < Math.min(due, returns))) {
        if (step !== undefined && due === Infinity) this.passOver(index);
        this.segments.push({ start: this.time, end: until, solution: current.solution });
        return { segments: this.segments, events: this.events };
      } else {
        this.advance(current, horizon);
        if (returns <= horizon) {
          const moves = this.positions.completeReturns(returns);
          current = this.switched(moves.step, moves);
        } else if (step !== undefined) {
          current = this.take(step, index);
          armed = this.time;
          index += 1;
        }
      }
    }
  }

  // ---------------------------------------------------------------- steps

  /** When the step runs; undefined: not as long as the present state holds. */
  private due(step: Step, armed: number, { solution, lasts }: Current): number | undefined {
    if (step.at !== undefined) return Math.max(step.at, this.time);
    if (step.after !== undefined) return Math.max(armed + step.after, this.time);
    const { link } = this.input.compiled.circuit;
    if (step.when === undefined || link === undefined) return undefined;
    const [a, b] = link.map((name) => this.input.compiled.nodes.get(name) ?? -1);
    const signal = solution.voltage(a ?? -1, b ?? -1);
    if (typeof signal === 'string') return undefined;
    const until = Math.min(this.input.until - this.time, lasts);
    const level = step.when.linkRatio * this.input.openCircuitVoltage;
    const after = (step.when.falling ? timeToFall : timeToRise)(signal, level, until, this.input.openCircuitVoltage);
    return after === undefined ? undefined : this.time + after;
  }

  private take(step: Step, index: number): Current {
    this.repetition = new Repetition();
    if (step.release) {
      this.released = true;
      this.turningSince ??= this.time;
    }
    return this.switched(index, this.positions.take(step, index, this.time));
  }

  private switched(step: number | null, moves: Moves): Current {
    const next = this.begin(step);
    this.record(step, moves, [], next);
    return next;
  }

  private passOver(index: number): void {
    const { time } = this;
    const segment = this.segments.length;
    this.events.push({ time, step: index, opened: [], closed: [], changed: [], energyLost: 0, skipped: true, segment });
  }

  // ---------------------------------------------------------------- states

  private advance({ solution }: Current, to: number): void {
    const elapsed = to - this.time;
    this.segments.push({ start: this.time, end: to, solution });
    this.capacitorVoltages = this.capacitorVoltages.map((_, k) => solution.capacitorVoltage(k).at(elapsed));
    this.time = to;
  }

  /** Solves the present switch state; loads and machines take the behaviour that its voltages ask for. */
  private begin(step: number | null): Current {
    const { modes } = this.positions;
    for (const element of this.variable) {
      if (modes[element.index] !== Mode.absent && !this.isActive(element)) modes[element.index] = Mode.open;
    }
    return this.settled(step);
  }

  /**
   * Solves until every load and machine behaves as the voltages ask for. Where no capacitor holds a voltage it jumps with each of
   * them, and there may be no such state at all.
   * @param changed indices of the elements that have just crossed the edge of their region, and so stand on it
   */
  private settled(step: number | null, changed: readonly number[] = []): Current {
    const { modes } = this.positions;
    const active = this.variable.filter((element) => this.isActive(element));
    let current = this.solve(step);
    let moved: string[] = [];
    for (let round = 0; round < 4 * active.length + 4; round += 1) {
      moved = [];
      for (const element of active) {
        const { index } = element;
        const signal = current.solution.voltage(element.a, element.b);
        const mode = modes[index] as number;
        const voltage = typeof signal === 'string' ? undefined : voltageNow(signal, mode === Mode.open);
        const emf = backEmf(element, this.input.values, this.coasted).at(0);
        const region = regionAt(element, voltage, this.awake.has(index), emf);
        const mayKeep = region.mode !== mode && changed.includes(index);
        if (mayKeep && holdsOnTheEdge(element, { voltage, signal }, this.awake.has(index), emf, mode)) continue;
        if (region.awake) this.awake.add(index);
        else this.awake.delete(index);
        if (region.mode === mode) continue;
        // Region by region where jumps have not settled it: the next one may already hold.
        const direct = round < JUMPS || element.load === 'resistance';
        modes[index] = direct ? region.mode : mode + Math.sign(region.mode - mode);
        moved.push(element.id);
      }
      if (moved.length === 0) return current;
      current = this.solve(step);
    }
    throw noStateHolds(this.input.compiled, moved);
  }

  private changesWithin({ solution }: Current, until: number): readonly RegionChange[] {
    if (this.variable.length === 0) return [];
    return nextRegionChanges(
      this.input.compiled,
      solution,
      this.positions.modes,
      this.awake,
      (element) => this.isActive(element),
      (element) => backEmf(element, this.input.values, this.coasted),
      until,
    );
  }

  private changeRegions(changes: readonly RegionChange[]): Current {
    for (const { element, mode, awake } of changes) {
      this.positions.modes[element] = mode;
      if (awake) this.awake.add(element);
      else this.awake.delete(element);
    }
    return this.resettled(changes.map(({ element }) => element));
  }

  /** The state after some elements have changed of themselves, by index. */
  private resettled(changed: readonly number[]): Current {
    const next = this.settled(null, changed);
    const ids = changed.map((index) => this.input.compiled.elements[index]?.id ?? '');
    this.record(null, { opened: [], closed: [] }, ids, next);
    return next;
  }

  /** The segment from which on everything repeats for ever; undefined: not yet seen to. */
  private repeatsFrom(): number | undefined {
    // A machine that coasts down makes no two rounds alike.
    const coasting = this.variable.some(({ source }) => source.kind === 'machine' && source.decay !== undefined);
    if (this.turningSince !== undefined && coasting) return undefined;
    const modes = this.positions.modes.join();
    const seen = this.repetition.look(modes, this.capacitorVoltages, this.segments.length);
    if (seen === undefined || 'repeatsFrom' in seen) return seen?.repeatsFrom;
    throw noStateHolds(this.input.compiled, lastChanged(this.events, seen.chatters));
  }

  /** The next step of loads of constant power. One that no longer finds its power falls below its knee, and may fall asleep there. */
  private followOn(): Current {
    const before = this.positions.modes.slice();
    const next = this.solve(null);
    const lost = this.variable.filter(({ index }) => this.positions.modes[index] !== before[index]);
    return lost.length === 0 ? next : this.resettled(lost.map(({ index }) => index));
  }

  private solve(step: number | null): Current {
    const begun = beginState(this.input, this.positions.modes, {
      capacitorVoltages: this.capacitorVoltages,
      machineScale: machineScale(this.variable, this.coasted),
      powerStep: this.powerStep,
      ...(step === null ? {} : { step }),
    });
    if ('powerless' in begun) {
      for (const element of begun.powerless) this.positions.modes[element] = Mode.closed;
      return this.solve(step);
    }
    this.powerStep = begun.next;
    return begun;
  }

  // ---------------------------------------------------------------- loads and machines

  /** s for which the machines have been coasting; undefined: they do not. */
  private get coasted(): number | undefined {
    return this.turningSince === undefined ? undefined : this.time - this.turningSince;
  }

  private isActive(element: CompiledElement): boolean {
    if (this.positions.modes[element.index] === Mode.absent) return false;
    if (element.source.kind === 'machine') return this.turningSince !== undefined;
    if (element.source.kind !== 'load' || this.input.withoutLoads === true) return false;
    return element.source.activeIn.includes(this.input.phase ?? this.currentPhase());
  }

  private currentPhase(): Phase {
    if (this.released) return 'shutdown';
    const { modes } = this.positions;
    const driving = this.isolation.length > 0 && this.isolation.every(({ index }) => modes[index] === Mode.closed);
    return driving ? 'drive' : 'precharge';
  }

  private record(step: number | null, moves: Moves, changed: readonly string[], { solution }: Current): void {
    this.events.push({
      time: this.time,
      step,
      opened: moves.opened.sort(),
      closed: moves.closed.sort(),
      changed,
      energyLost: solution.energyLost,
      segment: this.segments.length,
    });
  }
}
