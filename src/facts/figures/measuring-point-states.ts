import type { Meter, ResolvedCircuit } from '../../circuit/model.js';
import { type CompiledCircuit, compileCircuit, nominalValues, type Values } from '../../transient/compiled-circuit.js';
import { crossings } from '../../transient/crossings.js';
import type { ExponentialSum } from '../../transient/exponential-sum.js';
import { type Piece, piecesOf } from '../../transient/piecewise.js';
import { runTimeline } from '../../transient/timeline.js';
import type { Conditions } from '../conditions.js';
import type { MeasuringPointState, SeparationState, Topology } from '../facts.js';
import type { Shares } from './charged-shares.js';
import { extremeRatios } from './extreme-ratios.js';
import { fallModes } from './fall-modes.js';
import { accumulatorChain, openCircuitVoltage } from './open-circuit.js';

/** Ω of a common hand-held voltmeter. Common practice, no source. */
const VOLTMETER = 1e7;

/**
 * What a voltmeter at the measuring points reads of each capacitor of the car in every separation state, at the instant at which
 * they read least of it, of all that the capacitor spends above the limit: one that is read well at first may keep its charge while
 * the one at the points loses it. A capacitor to the chassis is read from one of the points to that, where it is stated. Nominal values. A capacitor that is never above the limit is left out: nothing has to be read of it.
 */
export function measuringPointStates(
  circuit: ResolvedCircuit,
  topology: Topology,
  conditions: Conditions,
  share: Shares,
  states: readonly SeparationState[],
): MeasuringPointState[] | undefined {
  const points = circuit.measuringPoints;
  if (points === undefined) return undefined;
  const { chassis } = circuit;
  const between = withVoltmeter(circuit, topology, [points.positive, points.negative]);
  const toChassis =
    chassis === undefined
      ? []
      : [points.positive, points.negative].map((point) => withVoltmeter(circuit, topology, [point, chassis]));
  const found: MeasuringPointState[] = [];
  for (const state of states) {
    const runs = [between, ...toChassis].map((each) => readingIn(each, state, share));
    for (const capacitor of topology.vehicleCapacitors) {
      const nodes = between.compiled.byId.get(capacitor)?.source.nodes;
      if (nodes === undefined || state.gone.includes(capacitor)) continue;
      const shown = chassis !== undefined && nodes.includes(chassis) ? runs : runs.slice(0, 1);
      const [best] = shown
        .flatMap(
          ({ voltage, total }) =>
            worstReading(voltage(nodes), voltage(undefined), conditions.dischargeVoltage, total) ?? [],
        )
        .sort((x, y) => x.error - y.error);
      if (best !== undefined) found.push({ state: state.id, capacitor, ...best });
    }
  }
  return found;
}

/** The circuit with a voltmeter between two nodes. */
interface Metered {
  readonly pair: readonly [string, string];
  readonly compiled: CompiledCircuit;
  readonly values: Values;
  /** V of the accumulators together. */
  readonly total: number;
}

function withVoltmeter(circuit: ResolvedCircuit, topology: Topology, pair: readonly [string, string]): Metered {
  const taken = new Set(circuit.elements.map(({ id }) => id));
  let id = 'voltmeter';
  while (taken.has(id)) id = `${id}-`;
  const meter: Meter = {
    id,
    kind: 'meter',
    nodes: pair,
    zone: 'vehicle',
    container: 'main',
    pointer: circuit.pointer,
    resistance: { min: VOLTMETER, nominal: VOLTMETER, max: VOLTMETER, toleranceStated: true },
  };
  const compiled = compileCircuit({ ...circuit, elements: [...circuit.elements, meter] });
  const values = nominalValues(compiled);
  return { pair, compiled, values, total: openCircuitVoltage(accumulatorChain(compiled, topology), values) };
}

/** The fall with the voltmeter on: the voltage between two nodes, or what the voltmeter reads. */
function readingIn({ pair, compiled, values, total }: Metered, state: SeparationState, share: Shares) {
  const timeline = runTimeline({
    compiled,
    values,
    steps: [],
    until: Infinity,
    starts: fallModes(compiled, state),
    startVoltages: new Map([...share].map(([capacitor, ratio]) => [capacitor, ratio * total])),
    openCircuitVoltage: total,
    phase: 'shutdown',
    withoutLoads: true,
  });
  const voltage = ([a, b]: readonly [string, string] = pair): Piece[] =>
    piecesOf(timeline, (solution) => solution.voltage(compiled.nodes.get(a) ?? -1, compiled.nodes.get(b) ?? -1));
  return { voltage, total };
}

type Reading = Pick<MeasuringPointState, 'time' | 'capacitorVoltage' | 'reading' | 'error'>;

/** Over every stretch of time in which the voltage is above the limit; undefined where there is none. */
function worstReading(
  voltage: readonly Piece[],
  reading: readonly Piece[],
  limit: number,
  scale: number,
): Reading | undefined {
  let worst: Reading | undefined;
  for (const [position, { start, end, signal }] of voltage.entries()) {
    if (signal === undefined) continue;
    for (const { from, to, sign } of stretchesAbove(signal, limit, end - start, scale)) {
      const each = readingOver(signal.times(sign), reading[position]?.signal, from, to);
      const time = each.time === null ? null : start + each.time;
      if (worst === undefined || each.error > worst.error) worst = { ...each, time };
    }
  }
  return worst;
}

/** Where |signal| is above the limit, from crossing to crossing, and with which sign. */
function stretchesAbove(signal: ExponentialSum, limit: number, until: number, scale: number) {
  const { low, high } = signal.range(0, until);
  const levels = [limit, -limit].filter((level) => low <= level && high >= level);
  const marks = levels.flatMap((level) => crossings(signal, level, until, scale).map(({ time }) => time));
  const ends = [...new Set([0, ...marks, until])].sort((a, b) => a - b);
  return ends.slice(1).flatMap((to, index) => {
    const from = ends[index] ?? 0;
    // Between two crossings every instant is on the same side; a stretch without end is asked after as long again.
    const inside = signal.at(to === Infinity ? (from > 0 ? 2 * from : 1) : (from + to) / 2);
    return Math.abs(inside) > limit ? [{ from, to, sign: Math.sign(inside) }] : [];
  });
}

function readingOver(voltage: ExponentialSum, reading: ExponentialSum | undefined, from: number, to: number): Reading {
  if (reading === undefined) return { time: from, capacitorVoltage: voltage.at(from), reading: null, error: 1 };
  // The leads may be the other way round than the capacitor's: what is read at first tells.
  const same = reading.times(reading.at(from) < 0 ? -1 : 1);
  // Only what reads too low misleads: points that still show the link while a smaller capacitor has emptied do not.
  const { ratio, time } = extremeRatios(same, voltage, from, to).least;
  const capacitorVoltage = time === Infinity ? voltage.limit() : voltage.at(time);
  return {
    time: time === Infinity ? null : time,
    capacitorVoltage,
    reading: Math.abs(ratio * capacitorVoltage),
    error: Math.max(0, 1 - ratio),
  };
}
