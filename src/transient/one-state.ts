import { agreed } from './agreed.js';
import type { Direction, Directions } from './bounds.js';
import { type Box, highestOf } from './box.js';
import type { CompiledCircuit, CompiledElement, Modes, Values } from './compiled-circuit.js';
import { Mode } from './compiled-circuit.js';
import { ExponentialSum } from './exponential-sum.js';
import { feedsCapacitors } from './feeds-capacitors.js';
import { isProvable } from './is-provable.js';
import { limitOf, NetworkSigns, opposite } from './network-signs.js';
import type { Pair, SignQuestion } from './sign-question.js';
import { plainLoads } from './plain-loads.js';
import { planOf } from './plan-of.js';
import type { StateSolution } from './state-solution.js';
import { withoutSources } from './without-sources.js';

/** Relative to the terms of a signal: what is left of a limit of 0. */
const NOTHING = 1e-12;

/**
 * What is proved besides where one capacitor (ideal ones in parallel count as one) holds the whole state: directions at every instant.
 *
 * Signs are those of the first instant, with the capacitor as a source, and of the end, with it open; in between it is a mean of the two.
 */
export class OneState extends NetworkSigns {
  private charged: StateSolution | undefined;

  /** undefined: the state is not of this kind, and nothing is proved. */
  static override of(question: SignQuestion): OneState | undefined {
    const { compiled, box, modes, course } = question;
    const largest = highestOf(box);
    if (!holdsOneState(compiled, largest, modes) || !isProvable(question)) return undefined;
    return course === 'fall' && feedsCapacitors(compiled, largest, modes) ? undefined : new OneState(question);
  }

  protected override makeMain(values: Values): StateSolution {
    if (this.course === 'rise') return super.makeMain(values);
    const still = withoutSources(this.compiled, values);
    return this.solve(still, { capacitorVoltages: this.compiled.capacitors.map(() => 1) });
  }

  /** The state with every source at 0 V, driven by its capacitor as it is charged in the end of a rise. */
  private get byCapacitor(): StateSolution {
    if (this.course === 'fall') return this.main;
    this.charged ??= this.solve(this.still, {
      // One that nothing charges loses what it may hold by the same network.
      capacitorVoltages: this.compiled.capacitors.map(
        (_, position) => Math.sign(this.main.capacitorVoltage(position).limit()) || 1,
      ),
    });
    return this.charged;
  }

  /**
   * Size of a resistance's current at the first instant with the capacitor held at a voltage at which it still takes current.
   *
   * Such a capacitor is to the rest what a resistance is (substitution theorem), so that each current keeps the direction it has
   * at the first instant or, where that is 0 because the empty capacitor shorts it, in the end.
   */
  chargedCurrent(part: CompiledElement): Directions {
    return this.once(`charged ${part.id}`, () => {
      const { main, probe } = this.withResistance(part);
      return this.currentTable(part, this.throughout(main), this.atStart(probe));
    });
  }

  /** The size of the pair's voltage at every instant of a rise. ESR is left open: see `timeToReach`. */
  risingVoltage(pair: Pair): Directions {
    return this.once(`rising ${pair.a.toString()} ${pair.b.toString()}`, () => this.makeRisingVoltage(pair));
  }

  private makeRisingVoltage(pair: Pair): Directions {
    const probe = this.pushed(pair);
    const current = this.throughout(this.main);
    const byState = this.atStart(this.byCapacitor);
    const direct = this.atStart(probe);
    const signal = this.main.voltage(pair.a, pair.b);
    const size = signal instanceof ExponentialSum ? signal.size() : 0;
    const limit = limitOf(signal);
    // What ends at 0 is no rise: its size falls, and may turn.
    if (Math.abs(limit) <= NOTHING * size) return () => (size === 0 ? 0 : undefined);
    const sense = Math.sign(limit);
    const seen = this.byCapacitor.voltage(pair.a, pair.b);
    const carried = Math.sign(typeof seen === 'string' ? 0 : seen.at(0)) * sense;
    if (carried < 0) return () => undefined;
    const signs = (one: number, other: number): Direction =>
      agreed(Math.sign(one) as Direction, Math.sign(other) as Direction);
    const effect = (element: CompiledElement): Direction =>
      signs(current(element) * byState(element) * carried, current(element) * direct(element) * sense);
    const voltage = (element: CompiledElement): Direction => signs(byState(element) * carried, direct(element) * sense);
    return this.table(effect, voltage, () => (carried === 0 ? 0 : -1));
  }

  /**
   * s until the pair reaches a ratio of the open-circuit voltage, in a rise.
   *
   * Against `risingVoltage`, and for the ESR r of a capacitor whose own terminals the pair is: t = (R + r)·C·ln(…), so dt/dr = C·(t/τ − 1), positive throughout where even
   * the smallest R and the largest r leave t > τ. With loads that are no resistances that is not told.
   * @param box the ranges asked about: unlike a sign, this hangs on them
   */
  timeToReach(pair: Pair, ratio: number, box: Box): Directions {
    const voltage = this.risingVoltage(pair);
    const esr = new Set(
      this.compiled.capacitors.map((index) => (this.compiled.elements[index] as CompiledElement).secondary),
    );
    let late: boolean | undefined;
    return (parameter) => {
      if (esr.has(parameter)) {
        late ??=
          plainLoads(this.compiled, this.modes) && this.isTerminals(pair) && this.laterThanOneTimeConstant(ratio, box);
        return late ? 1 : undefined;
      }
      return opposite(voltage(parameter));
    };
  }

  /** The state's time constant: the resistance that the capacitor sees rises with each of its own (monotonicity law). */
  timeConstant(): Directions {
    return this.once('time constant', () => this.makeTimeConstant());
  }

  private makeTimeConstant(): Directions {
    const sees = this.atStart(this.byCapacitor);
    return this.table(
      (element) => (sees(element) === 0 ? 0 : 1),
      () => 0,
      () => 1,
    );
  }

  /**
   * The heat that a resistance takes in a whole fall: ½·C·U² times its share of all losses.
   *
   * Seen from the part outwards the network is a chain of resistances S in series with, and conductances G across, what has been
   * gathered so far, of resistance X. The share is the product of X/(X + S) and 1/(1 + G·X). Its logarithmic slope ℓ in X is, step
   * by step inwards from 0 at the capacitor, a mean of what it was and +1 (S) or −1 (G), so −1 ≤ ℓ ≤ 1; and with X′ what a step
   * makes of X, the slope in S is −(1 − ℓ)/X′ and that in G −(1 + ℓ)·X′. So what lies in series takes from the part, and what lies
   * across it takes the less the larger it is: as its current goes, and where that does not move, the losses of what lies beside it.
   * @param box the ranges asked about: its own resistance hangs on them
   */
  heat(part: CompiledElement, box: Box): Directions {
    const current = this.firstCurrent(part);
    const time = this.timeConstant();
    if (this.atStart(this.main)(part) === 0) return () => 0;
    const own = this.byOwnResistance(part, box, (values) => this.heatSummit(part, values));
    return (parameter) => {
      if (parameter === part.primary) return own;
      const moved = current(parameter);
      return moved === 0 ? time(parameter) : moved;
    };
  }

  /**
   * Ω at which a resistance takes the largest share of what the capacitor holds, all else at the given values: the geometric mean of
   * what it sees with the capacitor shorted (R₁) and open (R₂). With G the conductance that the capacitor sees without the part and
   * a the share of the voltage that stands where it was, the share is a²·R/((R + R₁)·(G·(R + R₁) + a²)) and R₂ = R₁ + a²/G.
   */
  heatSummit(part: CompiledElement, values: Values): number {
    const { shorted, open } = this.seenBy(part, values);
    // Nothing in series: whatever lies across it, the smaller it is the more it takes.
    return shorted <= 0 ? 0 : Math.sqrt(shorted * Math.max(0, open));
  }

  /** Whether the pair is joined to the terminals of every capacitor that is there. */
  isTerminals({ a, b }: Pair): boolean {
    const { merged } = planOf(this.compiled, this.modes, this.base);
    return this.compiled.capacitors.every((index) => {
      const element = this.compiled.elements[index] as CompiledElement;
      if (this.modes[index] === Mode.absent) return true;
      const ends = [merged[element.a], merged[element.b]];
      return ends.includes(merged[a]) && ends.includes(merged[b]);
    });
  }

  // ---------------------------------------------------------------- inside

  private laterThanOneTimeConstant(ratio: number, box: Box): boolean {
    const values = box.nominal.slice();
    const esr = new Set(
      this.compiled.capacitors.map((index) => (this.compiled.elements[index] as CompiledElement).secondary),
    );
    let most = 0;
    for (const uncertain of box.uncertain) values[uncertain.index] = uncertain.low;
    for (const index of this.compiled.capacitors) {
      const element = this.compiled.elements[index] as CompiledElement;
      if (this.modes[index] === Mode.absent) continue;
      const range = box.uncertain.find((uncertain) => uncertain.index === element.secondary);
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
}

/** One pair of merged nodes carries every capacitor that is not shorted. */
export function holdsOneState(compiled: CompiledCircuit, values: Values, modes: Modes): boolean {
  const apart = planOf(compiled, modes, values).capacitors.filter(({ ma, mb }) => ma !== mb);
  const [first] = apart;
  if (first === undefined) return false;
  return apart.every(({ ma, mb }) => (ma === first.ma && mb === first.mb) || (ma === first.mb && mb === first.ma));
}
