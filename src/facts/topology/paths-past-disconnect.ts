import type { ResolvedCircuit } from '../../circuit/model.js';
import type { Conditions } from '../conditions.js';
import type { ConductingPath } from '../facts.js';
import { isolationResistance } from './isolation-resistance.js';
import { loopPath } from './loop-path.js';
import { loopThroughAccumulators } from './loop-through-accumulators.js';
import { resistanceOf } from './resistance-of.js';
import { wiring } from './wiring.js';

/**
 * What still joins the accumulators to the link with every disconnect open and every contact closed. One opened pole is
 * enough: a path is reported only where a whole loop remains, from one node of the link through an accumulator to the
 * other, at less than the isolation resistance. Then its pieces between the link and the accumulators, and between
 * accumulators, in order; a piece without elements is a link node that is itself a pole. A circuit without any
 * disconnect has its ordinary loop here.
 */
export function pathsPastDisconnect(circuit: ResolvedCircuit, conditions: Conditions): ConductingPath[] {
  const wires = wiring(circuit);
  const ohms = (element: (typeof circuit.elements)[number]): number =>
    element.kind === 'disconnect' ? Infinity : resistanceOf(element, (value) => value.min, wires.highestVoltage);
  const loop = loopThroughAccumulators(wires, ({ element }) => ohms(element), isolationResistance(wires, conditions));
  if (!loop) return [];
  const whole = loopPath(loop);
  const sources = loop.parts.flatMap(({ element }, place) => (element.kind === 'accumulator' ? [place] : []));
  const bounds = [-1, ...sources, loop.parts.length];
  return bounds.slice(1).flatMap((end, place) => {
    const start = (bounds[place] ?? -1) + 1;
    const atTheLink = start === 0 || end === loop.parts.length;
    if (end === start && !atTheLink) return [];
    return [
      {
        elements: whole.elements.slice(start, end),
        nodes: whole.nodes.slice(start, end + 1),
        resistance: loop.parts.slice(start, end).reduce((sum, { element }) => sum + ohms(element), 0),
      },
    ];
  });
}
