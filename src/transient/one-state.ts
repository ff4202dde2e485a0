import { actAsOne } from './act-as-one.js';
import type { Box } from './box.js';
import type { Direction } from './bounds.js';
import { type CompiledCircuit, type CompiledElement, Mode, type Modes, type Values } from './compiled-circuit.js';
import { ExponentialSum } from './exponential-sum.js';
import { isSeriesParallel } from './series-parallel.js';
import { planOf } from './state-plan.js';
import { StateSolution, type StateStart } from './state-solution.js';

/** Relative to the largest of its kind: below this a branch counts as carrying nothing. */
const NOTHING = 1e-12;

/** A rise from an empty capacitor, or a fall of a charged one with every source gone. */
export type Course = 'rise' | 'fall';

/** A node pair whose voltage is looked at; node numbers. */
export interface Pair {
  readonly a: number;
  readonly b: number;
}

/**
 * Proved directions for a switch state in which one capacitor (ideal ones in parallel count as one) holds the whole state,
 * in which all sources act as one, and in which the graph of it, resistances, that capacitor and the pair looked at is series-parallel.
 *
 * There the direction of each branch's current is the same for all positive resistances (Duffin), both at the first
 * instant, with the capacitor as a source, and in the end, with it open; in between it is a mean of the two. A resistance's
 * effect on a voltage or current is minus its own current times the current that the thing looked at would drive through
 * it (reciprocity), so a product of signs that the nominal values already show.
 */
export class OneState {
  private readonly main: StateSolution;
  private readonly byCapacitor: StateSolution;
  /** The nominal values, but what may be 0 and need not is above 0: signs hold for all positive values, and show only there. */
  private readonly base: Values;
  private readonly still: Values;
  private readonly scale: number;
  private readonly tables = new Map<string, (parameter: number) => Direction>();

  private constructor(
    private readonly compiled: CompiledCircuit,
    private readonly box: Box,
    private readonly modes: Modes,
    private readonly course: Course,
  ) {
    const count = compiled.capacitors.length;
    this.base = Float64Array.from(box.nominal);
    for (const { index, high } of box.uncertain) if (this.base[index] === 0) this.base[index] = high;
    this.still = Float64Array.from(this.base);
    for (const element of compiled.elements) if (element.kind === 'accumulator') this.still[element.primary] = 0;
    const rise = this.solve(this.base, { capacitorVoltages: new Float64Array(count) });
    const charged = Float64Array.from(compiled.capacitors, (_, position) =>
      course === 'fall' ? 1 : Math.sign(rise.capacitorVoltage(position).limit()),
    );
    this.byCapacitor = this.solve(this.still, { capacitorVoltages: charged });
    this.main = course === 'rise' ? rise : this.byCapacitor;
    this.scale = this.largest(this.main);
  }

  /**
   * undefined: the state is not of this kind, and nothing is proved.
   * @param loads `any`: loads that are no plain resistances are taken as such, so that the signs are likely but not proved
   */
  static of(
    compiled: CompiledCircuit,
    box: Box,
    modes: Modes,
    course: Course,
    pairs: readonly Pair[],
    loads: 'plain' | 'any' = 'plain',
  ): OneState | undefined {
    const largest = Float64Array.from(box.nominal);
    for (const { index, high } of box.uncertain) largest[index] = high;
    if (!holdsOneState(compiled, largest, modes)) return undefined;
    if (loads === 'plain' && !plainLoads(compiled, modes)) return undefined;
    const edges = graphEdges(compiled, modes);
    if (!isSeriesParallel([...edges, ...pairs])) return undefined;
    // Of two sources either may win, so the currents' directions would hang on the values.
    const sources = edges.filter(({ kind }) => kind === 'accumulator');
    if (course === 'rise' && !actAsOne(sources, edges)) return undefined;
    return new OneState(compiled, box, modes, course);
  }

  /** The pair's voltage in the end of a rise. */
  steadyVoltage(pair: Pair): (parameter: number) => Direction {
    return this.once(`steady ${pair.a.toString()} ${pair.b.toString()}`, () => this.makeSteadyVoltage(pair));
  }

  private makeSteadyVoltage(pair: Pair): (parameter: number) => Direction {
    const probe = this.solve(this.still, { capacitorVoltages: this.noVoltages(), injection: { ...pair, current: 1 } });
    const own = this.lasting(this.main);
    const driven = this.lasting(probe);
    const sense = Math.sign(this.limit(this.main.voltage(pair.a, pair.b)));
    return this.table(
      (element) => (own(element) * driven(element) * sense) as Direction,
      (element) => (driven(element) * sense) as Direction,
      () => 0,
    );
  }

  /** The size of the pair's voltage at every instant of a rise. ESR is left open: see `timeToReach`. */
  risingVoltage(pair: Pair): (parameter: number) => Direction {
    return this.once(`rising ${pair.a.toString()} ${pair.b.toString()}`, () => this.makeRisingVoltage(pair));
  }

  private makeRisingVoltage(pair: Pair): (parameter: number) => Direction {
    const probe = this.solve(this.still, { capacitorVoltages: this.noVoltages(), injection: { ...pair, current: 1 } });
    const current = this.throughout(this.main);
    const byState = this.atStart(this.byCapacitor);
    const direct = this.atStart(probe);
    const signal = this.main.voltage(pair.a, pair.b);
    const size = signal instanceof ExponentialSum ? signal.size() : 0;
    const limit = this.limit(signal);
    // What ends at 0 is no rise: its size falls, and may turn.
    if (Math.abs(limit) <= NOTHING * size) return () => (size === 0 ? 0 : undefined);
    const sense = Math.sign(limit);
    const seen = this.byCapacitor.voltage(pair.a, pair.b);
    const carried = Math.sign(typeof seen === 'string' ? 0 : seen.at(0)) * sense;
    if (carried < 0) return () => undefined;
    const effect = (element: CompiledElement): Direction =>
      agree(current(element) * byState(element) * carried, current(element) * direct(element) * sense);
    const voltage = (element: CompiledElement): Direction => agree(byState(element) * carried, direct(element) * sense);
    return this.table(effect, voltage, () => (carried === 0 ? 0 : -1));
  }

  /**
   * s until the pair reaches a ratio of the open-circuit voltage, in a rise.
   *
   * Against `risingVoltage`, and for the ESR r of a capacitor whose own terminals the pair is: t = (R + r)·C·ln(…), so dt/dr = C·(t/τ − 1), positive throughout where even
   * the smallest R and the largest r leave t > τ.
   */
  timeToReach(pair: Pair, ratio: number): (parameter: number) => Direction {
    const voltage = this.risingVoltage(pair);
    const esr = new Set(
      this.compiled.capacitors.map((index) => (this.compiled.elements[index] as CompiledElement).secondary),
    );
    let late: boolean | undefined;
    return (parameter) => {
      if (esr.has(parameter)) {
        late ??= this.isTerminals(pair) && this.laterThanOneTimeConstant(ratio);
        return late ? 1 : undefined;
      }
      return opposite(voltage(parameter));
    };
  }

  /** The state's time constant: the resistance that the capacitor sees rises with each of its own (monotonicity law). */
  timeConstant(): (parameter: number) => Direction {
    return this.once('time constant', () => this.makeTimeConstant());
  }

  private makeTimeConstant(): (parameter: number) => Direction {
    const sees = this.atStart(this.byCapacitor);
    return this.table(
      (element) => (sees(element) === 0 ? 0 : 1),
      () => 0,
      () => 1,
    );
  }

  /** Size of a resistance's current at the first instant, or its power; the capacitor empty in a rise, held charged in a fall. */
  firstCurrent(part: CompiledElement, kind: 'current' | 'power'): (parameter: number) => Direction {
    return this.once(`first ${kind} ${part.id}`, () => this.makeFirstCurrent(part, kind));
  }

  private makeFirstCurrent(part: CompiledElement, kind: 'current' | 'power'): (parameter: number) => Direction {
    const probe = this.drivenBy(part, this.base);
    const own = this.atStart(this.main);
    const driven = this.atStart(probe);
    const sense = own(part);
    const table = this.table(
      (element) => (-own(element) * driven(element) * sense) as Direction,
      (element) => (-driven(element) * sense) as Direction,
      () => 0,
    );
    if (kind === 'current') return table;
    const ownPower = this.powerByOwnResistance(part);
    return (parameter) => (parameter === part.primary ? ownPower : table(parameter));
  }

  // ---------------------------------------------------------------- inside

  /** Tables of directions are asked for again and again (varied circuits share this state), so each is made once. */
  private once(key: string, make: () => (parameter: number) => Direction): (parameter: number) => Direction {
    const known = this.tables.get(key) ?? make();
    this.tables.set(key, known);
    return known;
  }

  /** A resistance's own power falls with it above the resistance it sees, rises below; inside that lies the matched load. */
  private powerByOwnResistance(part: CompiledElement): Direction {
    const corner = (end: 'low' | 'high'): Values => {
      const values = Float64Array.from(this.box.nominal);
      for (const uncertain of this.box.uncertain)
        if (uncertain.index !== part.primary) values[uncertain.index] = uncertain[end];
      return values;
    };
    const seen = (values: Values): number => {
      const signal = this.drivenBy(part, values).current(part.index);
      return typeof signal === 'string' ? Infinity : 1 / Math.abs(signal.at(0)) - (values[part.primary] as number);
    };
    const own = this.box.uncertain.find(({ index }) => index === part.primary);
    const least = own?.low ?? this.box.nominal[part.primary] ?? 0;
    const most = own?.high ?? this.box.nominal[part.primary] ?? 0;
    if (seen(corner('high')) <= least) return -1;
    return seen(corner('low')) >= most ? 1 : undefined;
  }

  /** Whether the pair is joined to the terminals of every capacitor that is there. */
  private isTerminals({ a, b }: Pair): boolean {
    const { merged } = planOf(this.compiled, this.modes, this.base);
    return this.compiled.capacitors.every((index) => {
      const element = this.compiled.elements[index] as CompiledElement;
      if (this.modes[index] === Mode.absent) return true;
      const ends = [merged[element.a], merged[element.b]];
      return ends.includes(merged[a]) && ends.includes(merged[b]);
    });
  }

  private laterThanOneTimeConstant(ratio: number): boolean {
    const values = Float64Array.from(this.box.nominal);
    const esr = new Set(
      this.compiled.capacitors.map((index) => (this.compiled.elements[index] as CompiledElement).secondary),
    );
    let most = 0;
    for (const uncertain of this.box.uncertain) values[uncertain.index] = uncertain.low;
    for (const index of this.compiled.capacitors) {
      const element = this.compiled.elements[index] as CompiledElement;
      if (this.modes[index] === Mode.absent) continue;
      const range = this.box.uncertain.find((uncertain) => uncertain.index === element.secondary);
      most += range?.high ?? values[element.secondary] ?? 0;
    }
    for (const index of esr) values[index] = 0;
    const [first] = this.compiled.capacitors.filter((index) => this.modes[index] !== Mode.absent);
    if (first === undefined) return false;
    const capacitance = values[(this.compiled.elements[first] as CompiledElement).primary] as number;
    const solution = this.solve(values, { capacitorVoltages: this.noVoltages() });
    const rate = solution.rates.reduce((fastest, each) => Math.max(fastest, each), 0);
    if (rate === 0) return true;
    const resistance = 1 / (rate * capacitance);
    return resistance / (resistance + most) > Math.E * (1 - ratio);
  }

  private drivenBy(part: CompiledElement, values: Values): StateSolution {
    const still = Float64Array.from(values);
    for (const element of this.compiled.elements) if (element.kind === 'accumulator') still[element.primary] = 0;
    return this.solve(still, { capacitorVoltages: this.noVoltages(), seriesVoltage: new Map([[part.index, 1]]) });
  }

  private solve(values: Values, start: StateStart): StateSolution {
    return new StateSolution(this.compiled, values, this.modes, start);
  }

  private noVoltages(): Float64Array {
    return new Float64Array(this.compiled.capacitors.length);
  }

  private table(
    resistance: (element: CompiledElement) => Direction,
    voltage: (element: CompiledElement) => Direction,
    capacitance: (element: CompiledElement) => Direction,
  ): (parameter: number) => Direction {
    const signs = new Map<number, Direction>();
    for (const element of this.compiled.elements) {
      const gone = this.modes[element.index] === Mode.absent;
      if (element.kind === 'capacitor') {
        signs.set(element.primary, gone ? 0 : capacitance(element));
        signs.set(element.secondary, gone ? 0 : resistance(element));
      } else if (element.kind === 'accumulator') {
        signs.set(element.primary, gone || this.course === 'fall' ? 0 : voltage(element));
        signs.set(element.secondary, gone ? 0 : resistance(element));
      } else {
        const effect = gone ? 0 : resistance(element);
        // More current or power drawn is like less resistance.
        const drawn = element.load === 'current' || element.load === 'power';
        signs.set(element.primary, drawn ? opposite(effect) : effect);
        if (element.secondary >= 0) signs.set(element.secondary, effect);
      }
    }
    return (parameter) => signs.get(parameter);
  }

  private signOf(
    solution: StateSolution,
    read: (signal: ExponentialSum) => number,
  ): (element: CompiledElement) => number {
    const scale = solution === this.main ? this.scale : this.largest(solution);
    return (element) => {
      const signal = solution.current(element.index);
      const value = typeof signal === 'string' ? 0 : read(signal);
      return Math.abs(value) <= NOTHING * scale ? 0 : Math.sign(value);
    };
  }

  private atStart(solution: StateSolution): (element: CompiledElement) => number {
    return this.signOf(solution, (signal) => signal.at(0));
  }

  private lasting(solution: StateSolution): (element: CompiledElement) => number {
    return this.signOf(solution, (signal) => signal.limit());
  }

  /** At the first instant and in the end; where one is 0 the other counts. */
  private throughout(solution: StateSolution): (element: CompiledElement) => number {
    const start = this.atStart(solution);
    const end = this.lasting(solution);
    return (element) => start(element) || end(element);
  }

  private largest(solution: StateSolution): number {
    let largest = 0;
    for (const element of this.compiled.elements) {
      const signal = solution.current(element.index);
      if (typeof signal !== 'string') largest = Math.max(largest, Math.abs(signal.at(0)), Math.abs(signal.limit()));
    }
    return largest;
  }

  private limit(signal: ExponentialSum | string): number {
    return typeof signal === 'string' ? 0 : signal.limit();
  }
}

function agree(one: number, other: number): Direction {
  if (one * other < 0) return undefined;
  return Math.sign(one + other) as Direction;
}

function opposite(direction: Direction): Direction {
  if (direction === undefined || direction === 0) return direction;
  return direction === 1 ? -1 : 1;
}

/** Loads that act as plain resistances whatever the voltage; machines that do not feed. */
export function plainLoads(compiled: CompiledCircuit, modes: Modes): boolean {
  return compiled.elements.every((element) => {
    if (element.kind === 'machine') return modes[element.index] !== Mode.closed;
    if (element.source.kind !== 'load' || modes[element.index] === Mode.open) return true;
    return element.load === 'resistance' && element.source.startsAbove <= 0;
  });
}

/** One pair of merged nodes carries every capacitor that is not shorted. */
export function holdsOneState(compiled: CompiledCircuit, values: Values, modes: Modes): boolean {
  const apart = planOf(compiled, modes, values).capacitors.filter(({ ma, mb }) => ma !== mb);
  const [first] = apart;
  if (first === undefined) return false;
  return apart.every(({ ma, mb }) => (ma === first.ma && mb === first.mb) || (ma === first.mb && mb === first.ma));
}

function graphEdges(compiled: CompiledCircuit, modes: Modes): CompiledElement[] {
  return compiled.elements.filter((element) => {
    const mode = modes[element.index];
    if (mode === Mode.absent) return false;
    return mode === Mode.closed || (element.kind === 'contact' && element.secondary >= 0);
  });
}
