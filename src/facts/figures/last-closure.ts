import { CircuitFault } from '../../circuit/fault.js';
import type { ResolvedCircuit, Step } from '../../circuit/model.js';
import type { Box } from '../../transient/box.js';
import { boundsOf } from '../../transient/bounds.js';
import { type CompiledCircuit, compileCircuit, type Values } from '../../transient/compiled-circuit.js';
import { ExponentialSum } from '../../transient/exponential-sum.js';
import { largestSize, type Piece, piecesOf, timeToReach } from '../../transient/piecewise.js';
import { runTimeline, type Timeline, type TimelineEvent } from '../../transient/timeline.js';
import type { Conditions } from '../conditions.js';
import type { LastClosure, Topology } from '../facts.js';
import type { TimeFigure } from '../figure.js';
import { lazily } from '../lazily.js';
import { withEventMeter } from './event-meter.js';
import {
  exactFigure,
  figureOf,
  type NamedParameter,
  nameOf,
  noFigure,
  noTimeFigure,
  timeFigureOf,
} from './figure-of.js';
import { missingResistances } from './missing-resistances.js';
import { accumulatorChain, openCircuitVoltage } from './open-circuit.js';
import type { RiseFacts } from './rise.js';
import { smallestSize } from './smallest-size.js';
import { circuitBox } from './tolerance-of.js';

interface Setting {
  readonly compiled: CompiledCircuit;
  readonly box: Box;
  readonly names: readonly NamedParameter[];
  readonly chain: readonly { readonly index: number; readonly sign: 1 | -1 }[];
  /** Up to and with the step that closes the last relay. */
  readonly steps: readonly Step[];
  /** Numbers of the link's nodes. */
  readonly link: readonly [number, number];
  /** Numbers of the bridged relays that the step closes. */
  readonly closing: readonly number[];
}

/**
 * Runs the order that is judged up to the first step that closes a bridged isolation relay, step by step as it is written,
 * with the event's meter on the link. No direction is proved of a run through several switch states, so ranges are searched.
 */
export function lastClosure(
  circuit: ResolvedCircuit,
  topology: Topology,
  conditions: Conditions,
  order: readonly Step[],
  rise: RiseFacts,
): LastClosure | undefined {
  const step = order.findIndex(({ close }) => close.some((id) => topology.bridgedRelays.includes(id)));
  if (step < 0 || circuit.link === undefined) return undefined;
  const level = plainLevel(order.slice(0, step + 1), topology);
  if (level !== undefined) return plainClosure(step, level, conditions.threshold, rise);
  const setting = settingOf(circuit, topology, conditions, order.slice(0, step + 1));
  if (setting === undefined) return undefined;
  const { box } = setting;
  const bounds = (figure: (values: Values) => number) => boundsOf(box, figure, { direction: unproved });
  const never = lazily(() => reach(setting, box.nominal) === undefined);
  const time = lazily(() => {
    if (never()) return noTimeFigure('never');
    const seconds = (values: Values) => reach(setting, values)?.event.time ?? Infinity;
    return timeFigureOf(box, bounds(seconds), setting.names, unproved);
  });
  const ratio = lazily(() => {
    if (never()) return noFigure('never');
    // Where the step is not reached the relay does not close, so nothing is too low for it.
    return figureOf(
      box,
      bounds((values) => ratioAtClosing(setting, values) ?? 1),
      setting.names,
      unproved,
    );
  });
  const lowest = lazily(() => {
    if (never()) return noFigure('never');
    const share = (values: Values) => lowestSince(setting, values, conditions.threshold);
    return figureOf(box, bounds(share), setting.names, unproved);
  });
  const current = lazily(() => {
    if (never()) return noFigure('never');
    const { comparisonError = 0 } = circuit.control.precharge ?? {};
    const early = { ...setting, steps: lowered(setting.steps, comparisonError) };
    if (Number.isNaN(currentAtClosing(early, box.nominal)))
      return noFigure('ideal-loop', missingResistances(setting.compiled));
    const amperes = (values: Values) => finiteOrNone(currentAtClosing(early, values));
    return figureOf(box, bounds(amperes), setting.names, unproved);
  });
  return {
    step,
    get time() {
      return time();
    },
    get ratio() {
      return ratio();
    },
    get highestRatio() {
      return highestRatio(setting);
    },
    get lowestRatio() {
      return lowest();
    },
    get current() {
      return current();
    },
  };
}

const unproved = (): undefined => undefined;

/** The ratio that the last relays wait for, where all else moves at once at 0 and they alone at the end: then the run is the rise. */
function plainLevel(steps: readonly Step[], topology: Topology): number | undefined {
  const closing = steps.at(-1);
  const before = steps.slice(0, -1);
  const level = closing?.when;
  if (closing === undefined || level === undefined || level.falling || closing.release || closing.open.length > 0)
    return undefined;
  const together =
    topology.bridgedRelays.every((id) => closing.close.includes(id)) &&
    closing.close.length === topology.bridgedRelays.length;
  const atOnce = before.every(({ at, after, release }) => !release && (at === 0 || after === 0));
  return together && atOnce && before.length > 0 ? level.linkRatio : undefined;
}

/** @param threshold the ruleset's level */
function plainClosure(step: number, level: number, threshold: number, rise: RiseFacts): LastClosure {
  const time = (): TimeFigure => rise.timeTo(level);
  return {
    step,
    waitsFor: level,
    get time() {
      return time().nominal === null ? noTimeFigure('never') : time();
    },
    get ratio() {
      return time().nominal === null ? noFigure('never') : exactFigure(level);
    },
    get highestRatio() {
      return time().nominal === null ? null : level;
    },
    get lowestRatio() {
      // A rise only rises.
      return time().nominal === null ? noFigure('never') : exactFigure(Math.min(level, threshold));
    },
    get current() {
      return rise.closureCurrent(level);
    },
  };
}

function settingOf(
  circuit: ResolvedCircuit,
  topology: Topology,
  conditions: Conditions,
  steps: readonly Step[],
): Setting | undefined {
  const compiled = compileCircuit(withEventMeter(circuit, topology, conditions.eventMeterResistance));
  const chain = accumulatorChain(compiled, topology);
  const [a, b] = (circuit.link ?? []).map((node) => compiled.nodes.get(node));
  if (a === undefined || b === undefined || chain.length === 0) return undefined;
  const closed = steps.at(-1)?.close.filter((id) => topology.bridgedRelays.includes(id)) ?? [];
  return {
    compiled,
    box: circuitBox(compiled, conditions),
    names: compiled.parameters.map((parameter) => nameOf(parameter, compiled.byId.get(parameter.element)?.kind ?? '')),
    chain,
    steps,
    link: [a, b],
    closing: closed.flatMap((id) => compiled.byId.get(id)?.index ?? []),
  };
}

/** The run with the last step reached but nothing moved by it; undefined: the step is never reached. */
function reach(setting: Setting, values: Values): { timeline: Timeline; event: TimelineEvent } | undefined {
  const marker = setting.steps.map((step, index) =>
    index === setting.steps.length - 1 ? { ...step, close: [], open: [], release: false } : step,
  );
  return runTo(setting, marker, values);
}

function runTo({ compiled, chain }: Setting, steps: readonly Step[], values: Values) {
  const timeline = runTimeline({
    compiled,
    values,
    steps,
    until: Infinity,
    openCircuitVoltage: openCircuitVoltage(chain, values),
  });
  const event = timeline.events.find(({ step, skipped }) => step === steps.length - 1 && skipped !== true);
  return event === undefined ? undefined : { timeline, event };
}

function ratioAtClosing(setting: Setting, values: Values): number | undefined {
  const reached = reach(setting, values);
  if (reached === undefined) return undefined;
  const signal = reached.timeline.segments[reached.event.segment]?.solution.voltage(...setting.link);
  return signal instanceof ExponentialSum ? Math.abs(signal.at(0)) / openCircuitVoltage(setting.chain, values) : 0;
}

function highestRatio(setting: Setting): number | null {
  const values = setting.box.nominal;
  const reached = reach(setting, values);
  if (reached === undefined) return null;
  return largestSize(linkOf(setting, reached.timeline), reached.event.time) / openCircuitVoltage(setting.chain, values);
}

/** The least from the first instant at the level until the closing; where the level is not reached by then, what is at the closing. */
function lowestSince(setting: Setting, values: Values, level: number): number {
  const reached = reach(setting, values);
  if (reached === undefined) return 1;
  const total = openCircuitVoltage(setting.chain, values);
  const link = linkOf(setting, reached.timeline);
  const first = timeToReach(link, level * total, total);
  const { time } = reached.event;
  return first > time ? (ratioAtClosing(setting, values) ?? 1) : smallestSize(link, first, time, total) / total;
}

function linkOf({ link }: Setting, timeline: Timeline): Piece[] {
  return piecesOf(timeline, (solution) => solution.voltage(...link));
}

/** NaN: nothing limits it; 0 where the step is never reached. */
function currentAtClosing(setting: Setting, values: Values): number {
  try {
    const reached = runTo(setting, setting.steps, values);
    if (reached === undefined) return 0;
    const solution = reached.timeline.segments[reached.event.segment]?.solution;
    return setting.closing.reduce((largest, relay) => {
      const signal = solution?.current(relay);
      return signal instanceof ExponentialSum ? Math.max(largest, Math.abs(signal.at(0))) : Number.NaN;
    }, 0);
  } catch (error) {
    if (error instanceof CircuitFault) return Number.NaN;
    throw error;
  }
}

/** Every level that a step waits for on the way up, lowered by the error with which it is compared. */
function lowered(steps: readonly Step[], error: number): Step[] {
  return steps.map((step) =>
    step.when === undefined || step.when.falling
      ? step
      : { ...step, when: { ...step.when, linkRatio: Math.max(0, step.when.linkRatio - error) } },
  );
}

function finiteOrNone(value: number): number {
  return Number.isFinite(value) ? value : 0;
}
