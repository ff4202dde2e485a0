import { type CompiledCircuit, type CompiledElement, Mode, type Modes } from './compiled-circuit.js';
import { crossings } from './crossings.js';
import type { ExponentialSum } from './exponential-sum.js';
import { CURRENT_LOAD_KNEE } from './load-knee.js';
import type { StateSolution } from './state-solution.js';

/** Which way a load or a machine next changes its behaviour, and when (s from the state's start). */
export interface RegionChange {
  readonly element: number;
  readonly time: number;
  readonly mode: number;
  /** A load: whether it is awake from then on. */
  readonly awake: boolean;
}

/** Loads that are awake, by element index: the memory of their hysteresis. */
export type Awake = Set<number>;

/** Relative; a machine's diode needs this much before the computation calls it conducting: as much as a crossing's own tie. */
const DIODE_TIE = 1e-12;

/**
 * The behaviour a load or machine takes at a voltage, given whether it was awake.
 *
 * @param voltage V across it; undefined where its nodes have none between them
 * @param emf V, a machine's back-EMF now
 */
export function regionAt(
  element: CompiledElement,
  voltage: number | undefined,
  wasAwake: boolean,
  emf = 0,
): { mode: number; awake: boolean } {
  if (element.source.kind === 'machine') {
    return {
      mode: emf > 0 && emf - (voltage ?? 0) > DIODE_TIE * Math.max(1, emf) ? Mode.closed : Mode.open,
      awake: true,
    };
  }
  if (element.source.kind !== 'load' || voltage === undefined) return { mode: Mode.open, awake: wasAwake };
  const { startsAbove, stopsBelow } = element.source;
  const neverSleeps = startsAbove <= 0 && stopsBelow <= 0;
  const awake = neverSleeps || (wasAwake ? voltage >= stopsBelow : voltage > startsAbove);
  if (!awake) return { mode: Mode.open, awake };
  if (element.load === 'resistance') return { mode: Mode.closed, awake };
  if (voltage < 0) return { mode: Mode.open, awake };
  return { mode: voltage < CURRENT_LOAD_KNEE ? Mode.closed : Mode.constant, awake };
}

/**
 * V, relative: how near an edge a load that has just crossed it may stand on either side. Near the least voltage at which a load
 * of constant power behind an ESR finds its power, an error of 1e-9 in the power is a thousand times that in the voltage.
 */
const ON_THE_EDGE = 1e-6;

/**
 * Whether a behaviour holds so near to the voltage that one that has just changed to it may keep it: where the voltage is heading, since
 * away from there it would hold no more, and no crossing would tell.
 */
export function holdsOnTheEdge(
  element: CompiledElement,
  { voltage, signal }: { readonly voltage: number | undefined; readonly signal: ExponentialSum | string },
  wasAwake: boolean,
  emf: number,
  mode: number,
): boolean {
  if (voltage === undefined || typeof signal === 'string') return false;
  const heading = signal.derivative().at(0);
  const edge = ON_THE_EDGE * Math.max(1, Math.abs(voltage));
  return [-1, 1].some(
    (side) => side * heading >= 0 && regionAt(element, voltage + side * edge, wasAwake, emf).mode === mode,
  );
}

/** Relative; two crossings of the same signal found by different ways differ by no more. */
const SAME_INSTANT = 1e-14;

/**
 * The first change of region of any active load or machine within `until` s of the state's start, and all that come at the same
 * instant: loads side by side that wake at one level wake together, whichever of them is looked at first.
 */
export function nextRegionChanges(
  compiled: CompiledCircuit,
  solution: StateSolution,
  modes: Modes,
  awake: Awake,
  active: (element: CompiledElement) => boolean,
  emf: (element: CompiledElement) => ExponentialSum,
  until: number,
): readonly RegionChange[] {
  let next: RegionChange[] = [];
  let first = Infinity;
  for (const element of compiled.elements) {
    if ((element.kind !== 'load' && element.kind !== 'machine') || !active(element)) continue;
    const signal = solution.voltage(element.a, element.b);
    if (typeof signal === 'string') continue;
    const change =
      element.kind === 'machine'
        ? machineChange(element, modes, signal, emf(element), until)
        : loadChange(element, modes, awake.has(element.index), signal, until);
    if (change === undefined || change.time > first * (1 + SAME_INSTANT)) continue;
    if (change.time < first * (1 - SAME_INSTANT)) next = [];
    next.push(change);
    first = Math.min(first, change.time);
  }
  return next;
}

function machineChange(
  element: CompiledElement,
  modes: Modes,
  signal: ExponentialSum,
  emf: ExponentialSum,
  until: number,
): RegionChange | undefined {
  const conducting = modes[element.index] === Mode.closed;
  const excess = emf.plus(signal, -1);
  const scale = Math.max(1, Math.abs(emf.at(0)));
  const crossing = crossings(excess, 0, until, scale).find((each) => each.direction === (conducting ? -1 : 1));
  return crossing === undefined
    ? undefined
    : { element: element.index, time: crossing.time, mode: conducting ? Mode.open : Mode.closed, awake: true };
}

function loadChange(
  element: CompiledElement,
  modes: Modes,
  awake: boolean,
  signal: ExponentialSum,
  until: number,
): RegionChange | undefined {
  if (element.source.kind !== 'load') return undefined;
  const { startsAbove, stopsBelow } = element.source;
  const mode = modes[element.index];
  const options: { level: number; direction: 1 | -1; mode: number; awake: boolean }[] = [];
  const neverSleeps = startsAbove <= 0 && stopsBelow <= 0;
  if (!awake) {
    const wakes = element.load === 'resistance' || startsAbove < CURRENT_LOAD_KNEE ? Mode.closed : Mode.constant;
    options.push({ level: startsAbove, direction: 1, mode: wakes, awake: true });
  } else {
    if (!neverSleeps) options.push({ level: stopsBelow, direction: -1, mode: Mode.open, awake: false });
    if (element.load !== 'resistance') {
      if (mode === Mode.open) options.push({ level: 0, direction: 1, mode: Mode.closed, awake: true });
      if (mode === Mode.closed) {
        options.push({ level: CURRENT_LOAD_KNEE, direction: 1, mode: Mode.constant, awake: true });
        options.push({ level: 0, direction: -1, mode: Mode.open, awake: true });
      }
      if (mode === Mode.constant)
        options.push({ level: CURRENT_LOAD_KNEE, direction: -1, mode: Mode.closed, awake: true });
    }
  }
  let next: RegionChange | undefined;
  for (const option of options) {
    const scale = Math.max(1, Math.abs(option.level));
    const crossing = crossings(signal, option.level, until, scale).find((each) => each.direction === option.direction);
    if (crossing === undefined || (next !== undefined && crossing.time >= next.time)) continue;
    next = { element: element.index, time: crossing.time, mode: option.mode, awake: option.awake };
  }
  return next;
}
