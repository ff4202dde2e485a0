import type { Topology } from '../facts/facts.js';
import type { CompiledCircuit, CompiledElement, Values } from '../transient/compiled-circuit.js';
import { ExponentialSum } from '../transient/exponential-sum.js';
import { integralOfSquare, largestSize, piecesOf, timeToReach } from '../transient/piecewise.js';
import type { Timeline } from '../transient/timeline.js';
import type { TransientsAnswer } from './transients-schema.js';

type Figures = TransientsAnswer['figures'];

interface Setting {
  readonly openCircuit: number;
  readonly parts: Topology;
  readonly threshold: number;
}

/** Numbers of the run as a whole, under the names that a report uses for the rise. */
export function runFigures(
  compiled: CompiledCircuit,
  values: Values,
  timeline: Timeline,
  { openCircuit, parts, threshold }: Setting,
): Figures {
  const figures: Figures = { openCircuitVoltage: { unit: 'V', nominal: openCircuit } };
  const { link } = compiled.circuit;
  if (link !== undefined) {
    const [a, b] = link.map((name) => compiled.nodes.get(name) ?? -1);
    const pieces = piecesOf(timeline, (solution) => solution.voltage(a ?? -1, b ?? -1));
    const time = timeToReach(pieces, threshold * openCircuit, openCircuit);
    figures['timeToThreshold'] =
      time === Infinity ? { unit: 's', nominal: null, reason: 'never' } : { unit: 's', nominal: time };
    const end = pieces.at(-1)?.signal?.limit();
    figures['finalLinkVoltage'] =
      end === undefined || !Number.isFinite(end)
        ? { unit: 'V', nominal: null, reason: 'no-value' }
        : { unit: 'V', nominal: end };
    figures['highestLinkVoltage'] = { unit: 'V', nominal: largestSize(pieces, Infinity) };
  }
  for (const id of parts.prechargeResistors) {
    const resistor = compiled.byId.get(id);
    if (resistor !== undefined)
      Object.assign(figures, resistorFigures(resistor, values, timeline, parts.prechargeResistors.length > 1));
  }
  return figures;
}

function resistorFigures(resistor: CompiledElement, values: Values, timeline: Timeline, several: boolean): Figures {
  const current = piecesOf(timeline, (solution) => {
    const signal = solution.current(resistor.index);
    return signal instanceof ExponentialSum ? signal : 'none';
  });
  const ohms = values[resistor.primary] ?? 0;
  const peak = largestSize(current, Infinity);
  const energy = integralOfSquare(current, Infinity) * ohms;
  const key = (name: string): string => (several ? `${name}:${resistor.id}` : name);
  return {
    [key('peakCurrent')]: { unit: 'A', nominal: peak, element: resistor.id },
    [key('resistorPeakPower')]: { unit: 'W', nominal: peak * peak * ohms, element: resistor.id },
    [key('resistorEnergy')]:
      energy === Infinity
        ? { unit: 'J', nominal: null, element: resistor.id, reason: 'without-end' }
        : { unit: 'J', nominal: energy, element: resistor.id },
  };
}
