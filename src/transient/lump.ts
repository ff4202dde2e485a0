import { CircuitFault } from '../circuit/fault.js';
import { type Box, easiestOf, highestOf } from './box.js';
import { type CompiledCircuit, Mode, type Modes, type Values } from './compiled-circuit.js';
import { leastPath } from './least-path.js';
import { OneState } from './one-state.js';
import type { Course, Pair } from './sign-question.js';
import { planOf } from './plan-of.js';
import { StateSolution } from './state-solution.js';

/** Several capacitors on small resistances, taken as one. */
export class Lump {
  /**
   * @param state what is proved of the circuit without those resistances
   * @param small their parameters
   */
  constructor(
    readonly state: OneState,
    private readonly small: ReadonlySet<number>,
  ) {}

  /** Ranges with those resistances at 0. */
  without({ nominal, uncertain }: Box): Box {
    return {
      nominal: zeroed(nominal, this.small),
      uncertain: uncertain.filter(({ index }) => !this.small.has(index)),
    };
  }

  /** Whether a parameter is one of them. */
  neglects(parameter: number): boolean {
    return this.small.has(parameter);
  }

  /** Ω, their sum at most. */
  resistanceIn(box: Box): number {
    const high = highestOf(box);
    let sum = 0;
    for (const parameter of this.small) sum += high[parameter] as number;
    return sum;
  }
}

/**
 * Takes capacitors that hang on one another by cables and on their own ESR as one.
 *
 * In a rise from 0 with plain loads and the capacitors on one common node no voltage falls (the network is cooperative and all
 * of it begins to rise), so each of these resistances carries a part of what is fed in and nothing more, and all voltages
 * behind them lie within δ = ΣR·I of their mean, weighed by capacitance. That mean plus δ obeys the equation of the lumped
 * circuit from at or above its start, the mean less δ from at or below: so every voltage stays within 2δ of the lumped one.
 * In a fall from one voltage the same holds with the signs turned.
 */
export function lump(
  compiled: CompiledCircuit,
  box: Box,
  modes: Modes,
  course: Course,
  link: Pair | undefined,
): Lump | undefined {
  const whole = planOf(compiled, modes, box.nominal);
  if (whole.holding.length !== 1 || whole.holding[0]?.common === undefined) return undefined;
  const small = new Set<number>();
  for (const index of compiled.capacitors)
    if (modes[index] !== Mode.absent) small.add(compiled.elements[index]?.secondary ?? -1);
  const plan = planOf(compiled, modes, zeroed(box.nominal, small));
  const [island] = plan.holding;
  if (island?.common === undefined || plan.holding.length !== 1) return undefined;
  const [a, b] = link === undefined ? [-1, -1] : [plan.merged[link.a] as number, plan.merged[link.b] as number];
  const main = link === undefined || a === island.common ? (link === undefined ? island.others[0] : b) : a;
  if (main === undefined || (link !== undefined && a !== island.common && b !== island.common)) return undefined;
  const high = highestOf(box);
  for (const node of island.others) {
    const path = leastPath(plan, high, { from: main, to: node, avoided: island.common });
    if (path === undefined) return undefined;
    for (const parameter of path.parameters) small.add(parameter);
  }
  const lumped: Box = {
    nominal: zeroed(box.nominal, small),
    uncertain: box.uncertain.filter(({ index }) => !small.has(index)),
  };
  const pairs = link === undefined ? [] : [link];
  const state = OneState.of({ compiled, box: lumped, modes, course, pairs, shorts: small });
  if (state === undefined || (course === 'rise' && !feedsFinitely(compiled, lumped, modes))) return undefined;
  return new Lump(state, small);
}

/** Whether what is left after the small resistances still limits every current: a path through a pack's own node leaves nothing. */
function feedsFinitely(compiled: CompiledCircuit, box: Box, modes: Modes): boolean {
  try {
    return Number.isFinite(mostFedIn(compiled, box, modes));
  } catch (error) {
    if (error instanceof CircuitFault) return false;
    throw error;
  }
}

/** A, the most that the accumulators feed in at any time of a rise: at its start, every resistance at its least (monotonicity law). */
export function mostFedIn(compiled: CompiledCircuit, box: Box, modes: Modes): number {
  const values = easiestOf(compiled, box);
  const solution = new StateSolution(compiled, values, modes, { capacitorVoltages: compiled.capacitors.map(() => 0) });
  return compiled.elements.reduce((most, { kind, index }) => {
    const signal = kind === 'accumulator' && modes[index] !== Mode.absent ? solution.current(index) : 0;
    return typeof signal === 'object' ? Math.max(most, Math.abs(signal.at(0))) : most;
  }, 0);
}

function zeroed(values: Values, zero: ReadonlySet<number>): Values {
  return values.map((value, index) => (zero.has(index) ? 0 : value));
}
