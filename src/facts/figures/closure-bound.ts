import type { Box } from '../../transient/box.js';
import type { Direction } from '../../transient/bounds.js';
import type { CompiledCircuit, CompiledElement, Values } from '../../transient/compiled-circuit.js';
import { mostFedIn } from '../../transient/lump.js';
import type { Directions } from '../../transient/network-signs.js';
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

/**
 * With one capacitor that the closing still charges every current keeps its direction (`OneState.chargedCurrent`), so the largest
 * lies at a corner. It is charged on wherever the link's end with the relays closed is above the level. Behind a resistance of its own
 * the capacitor stands lower than the link by no more than that times all that is fed in.
 */
export function closureBound(question: ClosureQuestion): ClosureBound | undefined {
  const { compiled, box, setting, signs, level, relays, isSummed, run } = question;
  const { after, one } = signs;
  if (after === undefined || one === undefined) return undefined;
  // A link behind a cable of its own says less of the capacitor's voltage than that.
  if (!after.isTerminals(setting.link)) return undefined;
  const steady = after.steadyVoltage(setting.link);
  const lowest = corner(box, (index) => (isSummed(index) ? 0 : steady(index)), 'min');
  if (lowest === undefined || endOf(question, lowest) <= level) return undefined;
  const tables = relays.map((relay) => after.chargedCurrent(compiled.elements[relay] as CompiledElement));
  const directions = (index: number): Direction => {
    if (isSummed(index)) return 1;
    const [first, ...rest] = tables.map((table) => table(index));
    return rest.every((each) => each === first) ? first : undefined;
  };
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
