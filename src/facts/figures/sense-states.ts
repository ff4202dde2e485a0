import type { ResolvedCircuit } from '../../circuit/model.js';
import { type CompiledCircuit, compileCircuit, nominalValues } from '../../transient/compiled-circuit.js';
import { firstAtOrAbove } from '../../transient/crossings.js';
import type { ExponentialSum } from '../../transient/exponential-sum.js';
import { type Piece, piecesOf, timeToReach } from '../../transient/piecewise.js';
import { startModes } from '../../transient/start-modes.js';
import { runTimeline, type Timeline } from '../../transient/timeline.js';
import type { Conditions } from '../conditions.js';
import type { SenseState, SeparationState, Topology } from '../facts.js';
import { accumulatorChain, openCircuitVoltage } from './open-circuit.js';
import type { RiseState } from './rise-state.js';

/** Of the link's own end: from this share on a capacitor is one that the link's voltage stands across. */
const WHOLE = 0.9;
/** Of the slope that the link begins with: from this share on a capacitor is charged along with it through others. */
const COUPLED = 0.01;
/** Ratio by which a capacitor may lag the comparison (cable resistance) without counting as forgotten. */
const LAG = 1e-3;

/**
 * What the comparison sees against what stands on each capacitor of the car, in a start made in every separation state: with
 * the disconnect left open the sensed point may rise at once while the capacitor behind it stays empty.
 *
 * Nominal values. Empty where the link's sense points are not stated: what is not known deceives nobody here.
 */
export function senseStates(
  circuit: ResolvedCircuit,
  topology: Topology,
  conditions: Conditions,
  rise: RiseState,
  states: readonly SeparationState[],
): SenseState[] {
  const { linkSense, accumulatorSense, threshold = conditions.threshold } = circuit.control.precharge ?? {};
  if (linkSense === undefined) return [];
  const compiled = compileCircuit(circuit);
  const values = nominalValues(compiled);
  const chain = accumulatorChain(compiled, topology);
  const total = openCircuitVoltage(chain, values);
  if (!(total > 0)) return [];
  const run = (parted: ReadonlySet<string>, gone: readonly string[]): Timeline =>
    runTimeline({
      compiled,
      values,
      steps: [],
      until: Infinity,
      starts: startModes(compiled, {
        closed: new Set([...rise.closed].filter((id) => !parted.has(id))),
        open: new Set([...rise.open, ...parted]),
        absent: new Set(gone),
      }),
      openCircuitVoltage: total,
      phase: 'precharge',
    });
  const level = Math.min(threshold, conditions.threshold);
  const plain = run(new Set(), []);
  const shares = sharesOfLink(compiled, plain, level * total, total);
  const found: SenseState[] = [];
  for (const state of states) {
    const parted = new Set(state.open.filter((id) => !isContact(compiled, id)));
    const timeline = parted.size + state.gone.length === 0 ? plain : run(parted, state.gone);
    const sensed = pair(compiled, timeline, linkSense);
    const against = accumulatorSense === undefined ? undefined : pair(compiled, timeline, accumulatorSense);
    const reference = against === undefined ? total : limitOf(against);
    const sensedRatio = reference === null || reference === 0 ? null : ratio(limitOf(sensed), reference);
    // The comparison sees both voltages as they are at each instant, so one that is sensed beside the other deceives it at once.
    const time =
      sensedRatio === null
        ? Infinity
        : against === undefined
          ? timeToReach(sensed, threshold * total, total)
          : timeToExceed(sensed, against, threshold, total);
    for (const id of topology.vehicleCapacitors) {
      if (state.gone.includes(id)) continue;
      const own = pair(compiled, timeline, compiled.byId.get(id)?.source.nodes ?? ['', '']);
      const capacitorRatio = valueAt(own, time) / total;
      found.push({
        state: state.id,
        sensedRatio,
        capacitor: id,
        capacitorRatio,
        deceived: time < Infinity && capacitorRatio < level * shares(id) - LAG,
      });
    }
  }
  return found;
}

/**
 * The share of the link's voltage that stands on a capacitor in a rise with nothing separated, when the link is at the level or from
 * then on, whichever is less: all of it, but for what shares it with others (in series, or to the chassis), at first as the
 * capacitances divide it and in the end as the resistances do. One that is charged through a resistance alone only lags behind.
 */
function sharesOfLink(
  compiled: CompiledCircuit,
  timeline: Timeline,
  level: number,
  scale: number,
): (capacitor: string) => number {
  const link = pair(compiled, timeline, compiled.circuit.link ?? ['', '']);
  const time = timeToReach(link, level, scale);
  return (capacitor) => {
    const own = pair(compiled, timeline, compiled.byId.get(capacitor)?.source.nodes ?? ['', '']);
    const end = valueAt(link, Infinity);
    if (end === 0) return 1;
    const last = valueAt(own, Infinity) / end;
    if (last >= WHOLE && slopeAtFirst(own) <= COUPLED * slopeAtFirst(link)) return Math.min(1, last);
    return Math.min(1, last, valueAt(own, time) / valueAt(link, time));
  };
}

/** V/s, size. */
function slopeAtFirst([first]: readonly Piece[]): number {
  return Math.abs(first?.signal?.derivative().at(0) ?? 0);
}

function isContact(compiled: CompiledCircuit, id: string): boolean {
  return compiled.byId.get(id)?.kind === 'contact';
}

function pair(compiled: CompiledCircuit, timeline: Timeline, nodes: readonly [string, string]): Piece[] {
  const a = compiled.nodes.get(nodes[0]) ?? -1;
  const b = compiled.nodes.get(nodes[1]) ?? -1;
  return piecesOf(timeline, (solution) => solution.voltage(a, b));
}

/** The first instant at which the one voltage is at or above a share of the other, s; Infinity: never. */
function timeToExceed(sensed: readonly Piece[], against: readonly Piece[], share: number, scale: number): number {
  for (const [position, { start, end, signal }] of sensed.entries()) {
    const other = against[position]?.signal;
    if (signal === undefined || other === undefined) continue;
    const duration = end - start;
    const difference = upright(signal, duration).plus(upright(other, duration), -share);
    const first = firstAtOrAbove(difference, 0, duration, scale);
    if (first !== undefined) return start + first;
  }
  return Infinity;
}

/** Positive at the end of its time, whichever way round the leads are. */
function upright(signal: ExponentialSum, duration: number): ExponentialSum {
  const last = duration === Infinity ? signal.limit() : signal.at(duration);
  return last < 0 ? signal.times(-1) : signal;
}

function limitOf(pieces: readonly Piece[]): number | null {
  const signal = pieces.at(-1)?.signal;
  return signal === undefined ? null : Math.abs(signal.limit());
}

function ratio(value: number | null, reference: number): number | null {
  return value === null ? null : value / reference;
}

function valueAt(pieces: readonly Piece[], time: number): number {
  const piece = pieces.findLast(({ start }) => start <= time);
  if (piece?.signal === undefined) return 0;
  return Math.abs(time === Infinity ? piece.signal.limit() : piece.signal.at(time - piece.start));
}
