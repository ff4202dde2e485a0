import { type Box, highestOf } from './box.js';
import { type CompiledCircuit, type CompiledElement, Mode, type Modes, type Values } from './compiled-circuit.js';
import type { ExponentialSum } from './exponential-sum.js';
import { fedAtOneNode } from './fed-at-one-node.js';
import { CURRENT_LOAD_KNEE } from './load-knee.js';
import { planOf } from './plan-of.js';
import { StateSolution, type StateStart } from './state-solution.js';
import { withoutSources } from './without-sources.js';

/**
 * One of the loads whose current is not in proportion to their voltage, where these are leaks of a rise from 0: they draw from
 * the start on, all between the same two nodes, its own. undefined: there are none, or they are no leaks.
 *
 * Whatever a leak's law, then, no voltage ever falls: with one capacitor, whose terminals they are, its voltage obeys one
 * equation; with several on one common node, fed at one node, and the loads between that and any other, the network is cooperative
 * (Kamke) and begins to rise. So it gets to the lowest equilibrium, and what feeds the port better at every voltage raises that,
 * whatever else there is above it.
 *
 * Behind a resistance r, as it sees the capacitors, the port's voltage is one function of theirs, and rises with each, as long as
 * the steepest fall of the loads' current, P/V² at the knee, is less than 1/r.
 */
export function leakPort(compiled: CompiledCircuit, box: Box, modes: Modes): CompiledElement | undefined {
  const bent = bentLoads(compiled, modes);
  if (bent.some(sleeps)) return undefined;
  const highest = highestOf(box);
  const held = heldBy(compiled, highest, modes, bent);
  if (held === undefined || (held === 'several' && !fedAtOneNode(compiled, highest, modes))) return undefined;
  return isLeak(compiled, highest, modes, bent) ? bent[0] : undefined;
}

/**
 * The loads whose current is not in proportion to their voltage, where some of them sleep and all lie across the one capacitor of a rise
 * from 0; undefined: that is not so. As long as its voltage rises each draws by a law of that voltage alone, waking included.
 */
export function wakingLoads(compiled: CompiledCircuit, box: Box, modes: Modes): readonly CompiledElement[] | undefined {
  const bent = bentLoads(compiled, modes);
  const highest = highestOf(box);
  if (!bent.some(sleeps) || heldBy(compiled, highest, modes, bent) !== 'one') return undefined;
  return isLeak(compiled, highest, modes, bent) ? bent : undefined;
}

/** The loads that draw in a state and are no plain resistances; none where a machine feeds it. */
function bentLoads(compiled: CompiledCircuit, modes: Modes): readonly CompiledElement[] {
  if (compiled.elements.some(({ kind, index }) => kind === 'machine' && modes[index] === Mode.closed)) return [];
  return compiled.elements.filter((element) => isBent(element, modes));
}

/** Whether loads lie across the terminals of the one capacitor there is, or of the common node of several and another. */
function heldBy(
  compiled: CompiledCircuit,
  highest: Values,
  modes: Modes,
  bent: readonly CompiledElement[],
): 'one' | 'several' | undefined {
  const [port] = bent;
  if (port === undefined) return undefined;
  const { merged, capacitors, holding } = planOf(compiled, modes, highest);
  const ends = [merged[port.a], merged[port.b]];
  if (bent.some(({ a, b }) => merged[a] !== ends[0] || merged[b] !== ends[1])) return undefined;
  const apart = capacitors.filter(({ ma, mb }) => ma !== mb);
  if (apart.length === 0) return undefined;
  const one = apart.every(({ element, ma, mb }) => {
    const terminals = [merged[element.a], merged[element.b]];
    return ma === apart[0]?.ma && mb === apart[0].mb && terminals.every((end) => ends.includes(end));
  });
  if (one) return 'one';
  const [island, ...others] = holding;
  return others.length === 0 && island?.common !== undefined && ends.includes(island.common) ? 'several' : undefined;
}

function sleeps({ source }: CompiledElement): boolean {
  return source.kind === 'load' && (source.startsAbove > 0 || source.stopsBelow > 0);
}

/** A load that draws in the state and is no plain resistance. */
function isBent({ source, load, index }: CompiledElement, modes: Modes): boolean {
  if (source.kind !== 'load' || modes[index] === Mode.absent || modes[index] === Mode.open) return false;
  return load !== 'resistance' || source.startsAbove > 0 || source.stopsBelow > 0;
}

/** Whether the loads of one port see a voltage that they draw at (from first node to second), and less resistance to the capacitors than they could bend. */
function isLeak(compiled: CompiledCircuit, highest: Values, modes: Modes, bent: readonly CompiledElement[]): boolean {
  const idle = modes.slice();
  for (const { index } of bent) idle[index] = Mode.open;
  const [port] = bent;
  const draws = bent.reduce((sum, { load, primary }) => sum + (load === 'power' ? (highest[primary] as number) : 0), 0);
  const across = (values: Values, injection?: StateStart['injection']): ExponentialSum | string => {
    const start = { capacitorVoltages: compiled.capacitors.map(() => 0), ...(injection && { injection }) };
    const { a = -1, b = -1 } = port ?? {};
    return new StateSolution(compiled, values, idle, start).voltage(a, b);
  };
  const fed = across(highest);
  const seen = port && across(withoutSources(compiled, highest), { a: port.a, b: port.b, current: 1 });
  if (typeof fed === 'string' || typeof seen !== 'object' || fed.limit() <= 0) return false;
  // What it sees rises with every resistance (monotonicity law), so at its most here.
  return draws * Math.max(0, seen.at(0)) < CURRENT_LOAD_KNEE * CURRENT_LOAD_KNEE;
}
