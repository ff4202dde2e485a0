import { type Box, easiestOf, highestOf } from '../../transient/box.js';
import type { Directions } from '../../transient/bounds.js';
import type { CompiledCircuit, CompiledElement, Modes, Values } from '../../transient/compiled-circuit.js';
import { leastPath } from '../../transient/least-path.js';
import { mostFedIn } from '../../transient/lump.js';
import type { OneState } from '../../transient/one-state.js';
import { planOf } from '../../transient/plan-of.js';
import type { Pair } from '../../transient/sign-question.js';
import { StateSolution } from '../../transient/state-solution.js';
import { withoutSources } from '../../transient/without-sources.js';
import { corner } from './heat-bounds.js';
import { openCircuitVoltage } from './open-circuit.js';
import type { RiseRun, RiseSetting } from './rise-run.js';
import type { RiseSigns } from './rise-signs.js';

/** What is proved of the current at the closing of the last relays. */
export interface ClosureBound {
  /** Of the corner that is the bound, or leads there; absent where the bound is found by another way. */
  readonly directions?: Directions;
  /** True where the link shows the capacitor's own voltage, so that the corner is the bound itself. */
  readonly exact: boolean;
  readonly outer: (end: 'min' | 'max') => number | undefined;
}

export interface ClosureQuestion {
  readonly compiled: CompiledCircuit;
  readonly box: Box;
  readonly setting: RiseSetting;
  readonly signs: RiseSigns;
  /** Ratio at which they close. */
  readonly level: number;
  /** Numbers of the relays. */
  readonly relays: readonly number[];
  /** One of the voltages that add up to the open-circuit voltage and act as one: all currents grow with each. */
  readonly isSummed: (index: number) => boolean;
  readonly run: (values: Values) => RiseRun;
}

/** undefined: nothing is proved. */
export function closureBound(question: ClosureQuestion): ClosureBound | undefined {
  return ofOne(question) ?? ofAny(question);
}

/**
 * With one capacitor that the closing still charges every current keeps its direction (`OneState.chargedCurrent`), so the largest
 * lies at a corner. It is charged on wherever the link's end with the relays closed is above the level. Behind a resistance of its own
 * the capacitor stands lower than the link by no more than that times all that is fed in.
 */
function ofOne(question: ClosureQuestion): ClosureBound | undefined {
  const { compiled, box, signs, level, relays, run } = question;
  const { after, one } = signs;
  if (after === undefined || one === undefined || !chargesOn(question, after)) return undefined;
  const directions = directionsOf(question, after);
  const own = mostResistance(compiled, box);
  return {
    directions,
    exact: own === 0,
    outer: (end) => {
      const values = corner(box, directions, end);
      if (values === undefined) return undefined;
      const drop = end === 'max' ? own * mostFedIn(compiled, box, signs.modes) : 0;
      const at = run(values);
      return at.inrushFrom(level * at.openCircuit - drop, relays);
    },
  };
}

/**
 * Whatever the graph: at most what the voltage across the open relay drives through the resistance that it sees with the capacitors
 * shorted (Thévenin), which grows with each resistance (monotonicity law). Round the loop of relay, accumulators and link that voltage
 * is what the link lacks, and what the resistances on the way take off it, of which none carries more than all that is fed in.
 */
function ofAny({ compiled, box, setting, signs, level, relays }: ClosureQuestion): ClosureBound | undefined {
  const [relay, ...others] = relays.map((index) => compiled.elements[index]);
  if (relay === undefined || others.length > 0 || !signs.rises || !signs.scales) return undefined;
  return {
    exact: false,
    outer: (end) => {
      const way = end === 'max' ? wayRound(compiled, box, signs.modes, relay, setting.link) : undefined;
      if (way === undefined) return undefined;
      const easiest = easiestOf(compiled, box);
      const lacking = openCircuitVoltage(setting.chain, easiest) * (1 - level);
      const most = (lacking + way * mostFedIn(compiled, box, signs.modes)) / seenBy(relay, easiest, compiled, setting);
      return Number.isFinite(most) ? most : undefined;
    },
  };
}

/** Ω at most of what lies between the relay's one side and the link's, and between their other sides through the accumulators. */
function wayRound(
  compiled: CompiledCircuit,
  box: Box,
  modes: Modes,
  relay: CompiledElement,
  link: Pair,
): number | undefined {
  const highest = highestOf(box);
  const plan = planOf(compiled, modes, highest);
  const ohms = (one: number, other: number, throughAccumulators: boolean): number => {
    const way = { from: plan.merged[one] as number, to: plan.merged[other] as number, throughAccumulators };
    return leastPath(plan, highest, way)?.ohms ?? Infinity;
  };
  const bothWays = ({ a, b }: Pair) => [
    { near: a, far: b },
    { near: b, far: a },
  ];
  const ways = bothWays(relay).flatMap(({ near, far }) =>
    bothWays(link).map((end) => ({ near: ohms(near, end.near, false), far, other: end.far })),
  );
  const nearest = ways.reduce((best, each) => (each.near < best.near ? each : best));
  const sum = nearest.near + ohms(nearest.far, nearest.other, true);
  return Number.isFinite(sum) ? sum : undefined;
}

/** Ω that is added to what the relay sees, so that it may have none of its own. */
const PROBE = 1;

/** Ω that the closed relay sees with every source and capacitor shorted, its own included. */
function seenBy(
  relay: CompiledElement,
  values: Values,
  compiled: CompiledCircuit,
  { modesAfter }: RiseSetting,
): number {
  const still = withoutSources(compiled, values);
  still[relay.primary] = PROBE;
  const solution = new StateSolution(compiled, still, modesAfter, {
    capacitorVoltages: compiled.capacitors.map(() => 0),
    seriesVoltage: new Map([[relay.index, 1]]),
  });
  const signal = solution.current(relay.index);
  const amperes = typeof signal === 'string' ? 0 : Math.abs(signal.at(0));
  return 1 / amperes - PROBE + (values[relay.primary] as number);
}

/** Whether the closing charges the capacitor on wherever the parts stand. */
function chargesOn(question: ClosureQuestion, after: OneState): boolean {
  const { box, setting, level, isSummed } = question;
  // A link behind a cable of its own says less of the capacitor's voltage than that.
  if (!after.isTerminals(setting.link)) return false;
  const steady = after.steadyVoltage(setting.link);
  const lowest = corner(box, (index) => (isSummed(index) ? 0 : steady(index)), 'min');
  return lowest !== undefined && endOf(question, lowest) > level;
}

/** Of the largest current through the relays. */
function directionsOf({ compiled, relays, isSummed }: ClosureQuestion, after: OneState): Directions {
  const tables = relays.map((relay) => after.chargedCurrent(compiled.elements[relay] as CompiledElement));
  return (index) => {
    if (isSummed(index)) return 1;
    const [first, ...rest] = tables.map((table) => table(index));
    return rest.every((each) => each === first) ? first : undefined;
  };
}

/** The link's end with the last relays closed, ratio to the open-circuit voltage. */
function endOf({ compiled, setting, run }: ClosureQuestion, values: Values): number {
  const capacitorVoltages = compiled.capacitors.map(() => 0);
  const solution = new StateSolution(compiled, values, setting.modesAfter, { capacitorVoltages });
  const link = solution.voltage(setting.link.a, setting.link.b);
  return typeof link === 'string' ? 0 : Math.abs(link.limit()) / run(values).openCircuit;
}

/** Ω of the capacitors' own resistances at most. */
function mostResistance(compiled: CompiledCircuit, { nominal, uncertain }: Box): number {
  return compiled.capacitors.reduce((most, index) => {
    const parameter = compiled.elements[index]?.secondary ?? -1;
    const range = uncertain.find((each) => each.index === parameter);
    return Math.max(most, range?.high ?? nominal[parameter] ?? 0);
  }, 0);
}
