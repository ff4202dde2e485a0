import type { Direction, Directions } from './bounds.js';
import type { Box } from './box.js';
import { type CompiledCircuit, type CompiledElement, Mode, type Modes, type Values } from './compiled-circuit.js';
import type { ExponentialSum } from './exponential-sum.js';
import { isProvable } from './is-provable.js';
import { plainLoads } from './plain-loads.js';
import type { Course, Pair, SignQuestion } from './sign-question.js';
import { StateSolution, type StateStart } from './state-solution.js';
import { withoutSources } from './without-sources.js';

/** Relative to the largest of its kind: below this a branch counts as carrying nothing. */
const NOTHING = 1e-12;

/**
 * Proved directions for a switch state in which all sources act as one and in which the graph of it, resistances, capacitors and
 * the pair looked at is series-parallel: of its first instant, with every capacitor empty, and of its end, with every one open.
 *
 * There the direction of each branch's current is the same for all positive resistances (Duffin). A resistance's effect on a
 * voltage or current is minus its own current times the current that the thing looked at would drive through it
 * (reciprocity), so a product of signs that the nominal values already show.
 */
export class NetworkSigns {
  protected readonly compiled: CompiledCircuit;
  protected readonly modes: Modes;
  protected readonly course: Course;
  /** The nominal values, but what may be 0 and need not is above 0: signs hold for all positive values, and show only there. */
  protected readonly base: Values;
  /** The same with every source at 0 V. */
  protected readonly still: Values;
  private readonly tables = new Map<string, Directions>();
  private readonly scales = new Map<StateSolution, number>();
  private solved: StateSolution | undefined;

  protected constructor({ compiled, box, modes, course }: SignQuestion) {
    this.compiled = compiled;
    this.modes = modes;
    this.course = course;
    this.base = box.nominal.slice();
    for (const { index, high } of box.uncertain) if (this.base[index] === 0) this.base[index] = high;
    this.still = withoutSources(compiled, this.base);
  }

  /** undefined: the state is not of this kind, and nothing is proved. */
  static of(question: SignQuestion): NetworkSigns | undefined {
    return isProvable(question) && question.course === 'rise' ? new NetworkSigns(question) : undefined;
  }

  /** The pair's voltage in the end of a rise. */
  steadyVoltage(pair: Pair): Directions {
    return this.once(`steady ${pair.a.toString()} ${pair.b.toString()}`, () => {
      const probe = this.pushed(pair);
      // Capacitors alone divide the voltage of a pair without any resistance across it: what they do is not told here.
      if (!Number.isFinite(limitOf(probe.voltage(pair.a, pair.b)))) return () => undefined;
      const own = this.lasting(this.main);
      const driven = this.lasting(probe);
      const sense = Math.sign(limitOf(this.main.voltage(pair.a, pair.b)));
      return this.table(
        (element) => (own(element) * driven(element) * sense) as Direction,
        (element) => (driven(element) * sense) as Direction,
        () => 0,
      );
    });
  }

  /** Size of a resistance's current at the first instant; the capacitors empty in a rise. */
  firstCurrent(part: CompiledElement): Directions {
    return this.once(`first ${part.id}`, () => {
      const { main, probe } = this.withResistance(part);
      return this.currentTable(part, this.atStart(main), this.atStart(probe));
    });
  }

  /** Size of a resistance's current in the end of a rise. */
  lastCurrent(part: CompiledElement): Directions {
    return this.once(`last ${part.id}`, () => {
      const { main, probe } = this.withResistance(part);
      return this.currentTable(part, this.lasting(main), this.lasting(probe));
    });
  }

  /**
   * Its power at the first instant: as its current, but with its own resistance falling above the resistance it sees and rising
   * below; inside that lies the matched load.
   * @param box the ranges asked about: unlike a sign, this hangs on them
   */
  firstPower(part: CompiledElement, box: Box): Directions {
    const current = this.firstCurrent(part);
    // What a part sees of a load that is no resistance is not that resistance which has the load's sign.
    const own = plainLoads(this.compiled, this.modes) ? this.powerByOwnResistance(part, box) : undefined;
    return (parameter) => (parameter === part.primary ? own : current(parameter));
  }

  // ---------------------------------------------------------------- inside

  /** The state itself. */
  protected get main(): StateSolution {
    this.solved ??= this.makeMain(this.base);
    return this.solved;
  }

  protected makeMain(values: Values): StateSolution {
    return this.solve(values, { capacitorVoltages: this.noVoltages() });
  }

  /**
   * The state, and the same driven by the part alone. A part without resistance is given one: signs hold for every positive
   * resistance, so in the limit for none.
   */
  protected withResistance(part: CompiledElement): { main: StateSolution; probe: StateSolution } {
    if ((this.base[part.primary] as number) > 0) return { main: this.main, probe: this.drivenBy(part, this.base) };
    const values = this.base.slice();
    values[part.primary] = 1;
    return { main: this.makeMain(values), probe: this.drivenBy(part, values) };
  }

  /** Tables of directions are asked for again and again (varied circuits share this state), so each is made once. */
  protected once(key: string, make: () => Directions): Directions {
    const known = this.tables.get(key) ?? make();
    this.tables.set(key, known);
    return known;
  }

  protected currentTable(
    part: CompiledElement,
    own: (element: CompiledElement) => number,
    driven: (element: CompiledElement) => number,
  ): Directions {
    const sense = own(part);
    return this.table(
      (element) => (-own(element) * driven(element) * sense) as Direction,
      (element) => (-driven(element) * sense) as Direction,
      () => 0,
    );
  }

  private powerByOwnResistance(part: CompiledElement, box: Box): Direction {
    return this.byOwnResistance(part, box, (values) => this.seenBy(part, values).shorted);
  }

  /**
   * Of what rises with a part's own resistance up to a summit and falls beyond it.
   * @param summit Ω, which rises with each of the other resistances
   */
  protected byOwnResistance(part: CompiledElement, box: Box, summit: (values: Values) => number): Direction {
    const own = box.uncertain.find(({ index }) => index === part.primary);
    if (own === undefined) return 0;
    const corner = (end: 'low' | 'high'): Values => {
      const values = box.nominal.slice();
      for (const uncertain of box.uncertain) if (uncertain !== own) values[uncertain.index] = uncertain[end];
      return values;
    };
    if (summit(corner('high')) <= own.low) return -1;
    return summit(corner('low')) >= own.high ? 1 : undefined;
  }

  /** Ω that a part sees with every capacitor shorted, and with every one open; Infinity: nothing. */
  protected seenBy(part: CompiledElement, values: Values): { readonly shorted: number; readonly open: number } {
    const signal = this.drivenBy(part, values).current(part.index);
    if (typeof signal === 'string') return { shorted: Infinity, open: Infinity };
    const ohms = values[part.primary] as number;
    const [shorted, open] = [signal.at(0), signal.limit()].map((amperes) => 1 / Math.abs(amperes) - ohms);
    return { shorted: shorted as number, open: open as number };
  }

  /** The state with every source at 0 V, and 1 A put into one node of the pair and out of the other. */
  protected pushed(pair: Pair): StateSolution {
    return this.solve(this.still, { capacitorVoltages: this.noVoltages(), injection: { ...pair, current: 1 } });
  }

  /** The state with every source at 0 V but 1 V in series with one resistance. */
  protected drivenBy(part: CompiledElement, values: Values): StateSolution {
    const still = withoutSources(this.compiled, values);
    return this.solve(still, { capacitorVoltages: this.noVoltages(), seriesVoltage: new Map([[part.index, 1]]) });
  }

  protected solve(values: Values, start: StateStart): StateSolution {
    return new StateSolution(this.compiled, values, this.modes, start);
  }

  protected noVoltages(): number[] {
    return new Array<number>(this.compiled.capacitors.length).fill(0);
  }

  protected table(
    resistance: (element: CompiledElement) => Direction,
    voltage: (element: CompiledElement) => Direction,
    capacitance: (element: CompiledElement) => Direction,
  ): Directions {
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
    return (parameter) => {
      const sign = signs.get(parameter);
      return Number.isNaN(sign) ? undefined : sign;
    };
  }

  protected signOf(
    solution: StateSolution,
    read: (signal: ExponentialSum) => number,
  ): (element: CompiledElement) => number {
    const scale = this.scaleOf(solution);
    return (element) => {
      const signal = solution.current(element.index);
      const value = typeof signal === 'string' ? 0 : read(signal);
      if (!Number.isFinite(value)) return Number.NaN;
      return Math.abs(value) <= NOTHING * scale ? 0 : Math.sign(value);
    };
  }

  protected atStart(solution: StateSolution): (element: CompiledElement) => number {
    return this.signOf(solution, (signal) => signal.at(0));
  }

  protected lasting(solution: StateSolution): (element: CompiledElement) => number {
    return this.signOf(solution, (signal) => signal.limit());
  }

  /** At the first instant and in the end; where one is 0 the other counts. */
  protected throughout(solution: StateSolution): (element: CompiledElement) => number {
    const start = this.atStart(solution);
    const end = this.lasting(solution);
    return (element) => start(element) || end(element);
  }

  /** The largest finite current of all, A. */
  private scaleOf(solution: StateSolution): number {
    const known = this.scales.get(solution);
    if (known !== undefined) return known;
    let largest = 0;
    for (const element of this.compiled.elements) {
      const signal = solution.current(element.index);
      if (typeof signal === 'string') continue;
      // What comes of rounding in an island that nothing feeds may grow without end, and is no measure.
      const sizes = [signal.at(0), signal.limit()].map(Math.abs).filter(Number.isFinite);
      largest = Math.max(largest, ...sizes);
    }
    this.scales.set(solution, largest);
    return largest;
  }
}

/** The end of a signal; 0 where there is none. */
export function limitOf(signal: ExponentialSum | string): number {
  return typeof signal === 'string' ? 0 : signal.limit();
}

export function opposite(direction: Direction): Direction {
  if (direction === undefined || direction === 0) return direction;
  return direction === 1 ? -1 : 1;
}
