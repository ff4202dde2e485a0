import type { Box } from '../../transient/box.js';
import type { Direction, Directions } from '../../transient/bounds.js';
import type { CompiledCircuit, CompiledElement, Values } from '../../transient/compiled-circuit.js';
import { mostFedIn } from '../../transient/lump.js';
import type { OneState } from '../../transient/one-state.js';
import { StateSolution } from '../../transient/state-solution.js';
import { corner } from './heat-bounds.js';
import type { RiseRun, RiseSetting } from './rise-run.js';
import type { RiseSigns } from './rise-signs.js';

/** What is proved of the current at the closing of the last relays. */
export interface ClosureBound {
  readonly directions: Directions;
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

/** What is proved with one capacitor, or with several that come near to being one; undefined: nothing. */
export function closureBound(question: ClosureQuestion): ClosureBound | undefined {
  return question.signs.one === undefined ? ofSeveral(question) : ofOne(question);
}

/**
 * With one capacitor that the closing still charges every current keeps its direction (`OneState.chargedCurrent`), so the largest
 * lies at a corner. It is charged on wherever the link's end with the relays closed is above the level. Behind a resistance of its own
 * the capacitor stands lower than the link by no more than that times all that is fed in.
 */
function ofOne(question: ClosureQuestion): ClosureBound | undefined {
  const { compiled, box, signs, level, relays, run } = question;
  const { after } = signs;
  if (after === undefined || !chargesOn(question, after, box)) return undefined;
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
 * With several on cables no capacitor stands below the link by more than twice what is fed in drives through all of the cables (see
 * `lump`), and where charge takes from the relays' current it is largest with all of them there. A cable then takes from it too, but
 * for what of a load's current comes back through it: no more than all of that, which the link's end above the level shows to be below
 * what is fed in over that level. So the lumped circuit has the larger current, from a voltage lower by both.
 */
function ofSeveral(question: ClosureQuestion): ClosureBound | undefined {
  const { compiled, box, signs, level, relays, run } = question;
  const { afterApart, afterTogether, lumped } = signs;
  if (afterApart === undefined || afterTogether === undefined || lumped === undefined) return undefined;
  const joined = lumped.without(box);
  if (!chargesOn(question, afterTogether, joined)) return undefined;
  if (!relays.every((relay) => afterApart.isOpposedByCharge(compiled.elements[relay] as CompiledElement)))
    return undefined;
  const together = directionsOf(question, afterTogether);
  const directions = (index: number): Direction => (lumped.neglects(index) ? -1 : together(index));
  return {
    directions,
    exact: false,
    outer: (end) => {
      const values = end === 'max' ? corner(joined, together, end) : undefined;
      if (values === undefined) return undefined;
      const drop = lumped.resistanceIn(box) * mostFedIn(compiled, joined, signs.modes);
      const at = run(values);
      const most = at.inrushFrom(level * at.openCircuit - (2 + 1 / level) * drop, relays);
      return Number.isFinite(most) ? most : undefined;
    },
  };
}

/** Whether the closing charges the capacitors on wherever the parts stand. */
function chargesOn(question: ClosureQuestion, after: OneState, box: Box): boolean {
  const { setting, level, isSummed } = question;
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
