import type { Resistor } from '../circuit/model.js';
import type { Topology } from '../facts/facts.js';
import { once, thermalOf, thermalPeak } from '../facts/figures/thermal-peak.js';
import type { CompiledCircuit, CompiledElement, Values } from '../transient/compiled-circuit.js';
import { ExponentialSum } from '../transient/exponential-sum.js';
import {
  integralOfAll,
  integralOfSquare,
  largestSize,
  type Piece,
  piecesOf,
  repeatsSince,
  timeToReach,
} from '../transient/piecewise.js';
import type { Timeline } from '../transient/timeline.js';
import type { TransientsAnswer } from './transients-schema.js';

type Figures = TransientsAnswer['figures'];

interface Setting {
  readonly openCircuit: number;
  readonly parts: Topology;
  readonly threshold: number;
  /** The record: what an RMS value is taken over. */
  readonly record: Timeline;
  /** s, its end. */
  readonly until: number;
}

/** Numbers of the run as a whole (of one that repeats itself up to the end of its first round), under the names that a report uses for the rise. */
export function runFigures(compiled: CompiledCircuit, values: Values, timeline: Timeline, setting: Setting): Figures {
  const { openCircuit, parts, threshold, record, until } = setting;
  const figures: Figures = { openCircuitVoltage: { unit: 'V', nominal: openCircuit } };
  const { link } = compiled.circuit;
  if (link !== undefined) {
    const [a, b] = link.map((name) => compiled.nodes.get(name) ?? -1);
    const pieces = piecesOf(timeline, (solution) => solution.voltage(a ?? -1, b ?? -1));
    const time = timeToReach(pieces, threshold * openCircuit, openCircuit);
    figures['timeToThreshold'] =
      time === Infinity ? { unit: 's', nominal: null, reason: 'never' } : { unit: 's', nominal: time };
    const end = pieces.at(-1)?.signal?.limit();
    const reason = timeline.repeatsFrom === undefined ? 'no-value' : 'without-end';
    figures['finalLinkVoltage'] =
      end === undefined || !Number.isFinite(end) || reason === 'without-end'
        ? { unit: 'V', nominal: null, reason }
        : { unit: 'V', nominal: end };
    figures['highestLinkVoltage'] = { unit: 'V', nominal: largestSize(pieces, Infinity) };
  }
  const single = parts.prechargeResistors.length === 1 ? parts.prechargeResistors[0] : undefined;
  for (const element of compiled.elements) {
    if (element.source.kind !== 'resistor') continue;
    const suffix = element.id === single ? '' : `:${element.id}`;
    const { ambientMax } = compiled.circuit;
    Object.assign(figures, resistorFigures(element, { values, timeline, record, until, suffix, ambientMax }));
  }
  return figures;
}

interface Run {
  readonly values: Values;
  readonly timeline: Timeline;
  readonly record: Timeline;
  readonly until: number;
  readonly suffix: string;
  readonly ambientMax: number | undefined;
}

function resistorFigures(part: CompiledElement, run: Run): Figures {
  const { values, timeline, record, until, suffix, ambientMax } = run;
  const currentIn = (each: Timeline): Piece[] =>
    piecesOf(each, (solution) => {
      const signal = solution.current(part.index);
      return signal instanceof ExponentialSum ? signal : 'none';
    });
  const current = currentIn(timeline);
  const since = repeatsSince(timeline);
  const all = integralOfAll(current, since);
  const ohms = values[part.primary] ?? 0;
  const peak = largestSize(current, Infinity);
  const element = part.id;
  return {
    [`peakCurrent${suffix}`]: { unit: 'A', nominal: peak, element },
    [`resistorRmsCurrent${suffix}`]: { unit: 'A', nominal: rootMeanSquare(currentIn(record), until), element },
    [`resistorPeakPower${suffix}`]: { unit: 'W', nominal: peak * peak * ohms, element },
    [`resistorEnergy${suffix}`]: endless('J', all * ohms, element),
    [`resistorPeakTemperature${suffix}`]:
      all === Infinity && since !== undefined
        ? { unit: '°C', nominal: null, element, reason: 'without-end' }
        : temperature(part.source as Resistor, ohms, current, ambientMax),
  };
}

/** Over an instant it is the current itself. */
function rootMeanSquare(current: readonly Piece[], until: number): number {
  return until > 0 ? Math.sqrt(integralOfSquare(current, until) / until) : Math.abs(current[0]?.signal?.at(0) ?? 0);
}

function temperature(resistor: Resistor, ohms: number, current: readonly Piece[], ambientMax: number | undefined) {
  const { id } = resistor;
  const thermal = thermalOf(resistor, ambientMax);
  if ('missing' in thermal) return { unit: '°C', nominal: null, element: id, reason: 'not-stated' };
  return endless('°C', thermalPeak(thermal, ohms, once(current, Infinity)), id);
}

function endless(unit: string, value: number, element: string): Figures[string] {
  return value === Infinity
    ? { unit, nominal: null, element, reason: 'without-end' }
    : { unit, nominal: value, element };
}
