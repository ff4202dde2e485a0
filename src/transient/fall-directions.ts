import type { Directions } from './bounds.js';
import { type Box, highestOf } from './box.js';
import { type CompiledCircuit, Mode, type Modes } from './compiled-circuit.js';
import { feedsCapacitors } from './feeds-capacitors.js';
import { holdsOneState, OneState } from './one-state.js';
import { plainLoads } from './plain-loads.js';
import { planOf } from './plan-of.js';
import type { StatePlan } from './state-plan.js';

/**
 * How the capacitors' voltages in a fall without a source depend on each parameter: each rises with every resistance and capacitance.
 *
 * For a single state by the monotonicity law (the resistance a network shows rises with each of its own), whatever the
 * graph. For several states (capacitors to a common node, all from one voltage) where each cluster of resistances hangs on
 * one of them: then every cluster is a leak, and a voltage falls with each leak and rises with each capacitance.
 */
export function fallDirections(compiled: CompiledCircuit, box: Box, modes: Modes): Directions {
  const state = OneState.of({ compiled, box, modes, course: 'fall', pairs: [] });
  if (state !== undefined) return state.timeConstant();
  // What may have no resistance and may have some parts capacitors that the nominal values join.
  const largest = highestOf(box);
  const proved =
    plainLoads(compiled, modes) &&
    (holdsOneState(compiled, largest, modes) || leaksOnly(planOf(compiled, modes, largest))) &&
    !feedsCapacitors(compiled, largest, modes);
  return (parameter) => {
    if (!proved) return undefined;
    const field = compiled.parameters[parameter];
    const element = field === undefined ? undefined : compiled.byId.get(field.element);
    if (element === undefined || modes[element.index] === Mode.absent) return 0;
    return element.kind === 'accumulator' ? 0 : 1;
  };
}

/** Every cluster of resistances (joined by nodes without a capacitor) touches at most one capacitor node beside the common one. */
function leaksOnly(plan: StatePlan): boolean {
  const ends = plan.capacitors.filter(({ ma, mb }) => ma !== mb).map(({ ma, mb }) => [ma, mb] as const);
  const [first, ...rest] = ends;
  if (first === undefined) return true;
  const common = [first[1], first[0]].find((node) => rest.every((pair) => pair.includes(node)));
  if (common === undefined) return false;
  const held = new Set(ends.flat().filter((node) => node !== common));
  const parent = new Map<number, number>();
  const find = (node: number): number => {
    const up = parent.get(node);
    return up === undefined || up === node ? node : find(up);
  };
  for (const { ma, mb } of plan.branches) {
    if (held.has(ma) && held.has(mb) && ma !== mb) return false;
    if (ma !== common && mb !== common && !held.has(ma) && !held.has(mb)) parent.set(find(ma), find(mb));
  }
  const touched = new Map<number, number>();
  for (const { ma, mb } of plan.branches) {
    const inner = [ma, mb].find((node) => node !== common && !held.has(node));
    const outer = [ma, mb].find((node) => held.has(node));
    if (inner === undefined || outer === undefined) continue;
    const cluster = find(inner);
    if ((touched.get(cluster) ?? outer) !== outer) return false;
    touched.set(cluster, outer);
  }
  return true;
}
