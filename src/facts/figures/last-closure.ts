import { isIdealLoop } from '../../transient/ideal-loop-fault.js';
import type { ResolvedCircuit, Step } from '../../circuit/model.js';
import type { Box } from '../../transient/box.js';
import { type Bounds, boundsOf } from '../../transient/bounds.js';
import { type CompiledCircuit, compileCircuit, type Values } from '../../transient/compiled-circuit.js';
import { ExponentialSum } from '../../transient/exponential-sum.js';
import { largestSize, type Piece, piecesOf, timeToReach } from '../../transient/piecewise.js';
import { runTimeline, type Timeline, type TimelineEvent } from '../../transient/timeline.js';
import type { Conditions } from '../conditions.js';
import type { LastClosure, Topology } from '../facts.js';
import type { Figure, TimeFigure } from '../figure.js';
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
import { isOpen } from './is-open.js';
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
  if (level !== undefined) return new PlainClosure(step, level, conditions.threshold, rise);
  const setting = settingOf(circuit, topology, conditions, order.slice(0, step + 1));
  return setting && new OrderedClosure(step, setting, conditions.threshold);
}

/** The closing of an order that moves more on the way than the rise. */
class OrderedClosure implements LastClosure {
  /** @param threshold the ruleset's level */
  constructor(
    readonly step: number,
    private readonly setting: Setting,
    private readonly threshold: number,
  ) {}

  private readonly never = lazily(() => reach(this.setting, this.setting.box.nominal) === undefined);

  private readonly ofTime = lazily((): TimeFigure => {
    if (this.never()) return noTimeFigure('never');
    const seconds = (values: Values): number => reach(this.setting, values)?.event.time ?? Infinity;
    return timeFigureOf(this.setting.box, this.bounds(seconds), this.setting.names, { direction: unproved });
  });

  // Where the step is not reached the relay does not close, so nothing is too low for it.
  private readonly ofRatio = lazily(() => this.figure((values) => ratioAtClosing(this.setting, values) ?? 1));

  private readonly ofLowest = lazily(() => this.figure((values) => lowestSince(this.setting, values, this.threshold)));

  private readonly ofCurrent = lazily((): Figure => {
    const { compiled, steps, box } = this.setting;
    if (this.never()) return noFigure('never');
    const { comparisonError = 0 } = compiled.circuit.control.precharge ?? {};
    const early = { ...this.setting, steps: lowered(steps, comparisonError) };
    if (Number.isNaN(currentAtClosing(early, box.nominal))) return noFigure('ideal-loop', missingResistances(compiled));
    return this.figure((values) => finiteOrNone(currentAtClosing(early, values)));
  });

  get time(): TimeFigure {
    return this.ofTime();
  }

  get ratio(): Figure {
    return this.ofRatio();
  }

  get highestRatio(): number | null {
    return highestRatio(this.setting);
  }

  get lowestRatio(): Figure {
    return this.ofLowest();
  }

  get current(): Figure {
    return this.ofCurrent();
  }

  private figure(evaluate: (values: Values) => number): Figure {
    if (this.never()) return noFigure('never');
    return figureOf(this.setting.box, this.bounds(evaluate), this.setting.names, { direction: unproved });
  }

  private bounds(evaluate: (values: Values) => number): Bounds {
    return boundsOf(this.setting.box, evaluate, { direction: unproved });
  }
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

/** The closing of the plain rise. */
class PlainClosure implements LastClosure {
  /** @param threshold the ruleset's level */
  constructor(
    readonly step: number,
    readonly waitsFor: number,
    private readonly threshold: number,
    private readonly rise: RiseFacts,
  ) {}

  get time(): TimeFigure {
    const time = this.rise.timeTo(this.waitsFor);
    return time.nominal === null && !isOpen(time) ? noTimeFigure('never') : time;
  }

  get ratio(): Figure {
    return this.whereClosed(this.waitsFor);
  }

  get highestRatio(): number | null {
    return this.time.nominal === null ? null : this.waitsFor;
  }

  get lowestRatio(): Figure {
    // A rise only rises.
    return this.whereClosed(Math.min(this.waitsFor, this.threshold));
  }

  get current(): Figure {
    return this.rise.closureCurrent(this.waitsFor);
  }

  /** A ratio at the closing; the reason where it never comes, or where that cannot be computed. */
  private whereClosed(ratio: number): Figure {
    const { nominal, reason, missing } = this.time;
    return nominal === null ? noFigure(reason ?? 'never', missing) : exactFigure(ratio);
  }
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
    if (isIdealLoop(error)) return Number.NaN;
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
