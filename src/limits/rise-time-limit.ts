import type { Facts, VariedFacts } from '../facts/facts.js';
import type { TimeFigure } from '../facts/figure.js';
import type { BoundedPart } from './bounded-part.js';
import { demandOn, timeDemand } from './demand.js';
import { judgeTime } from './judgement.js';
import type { LimitMeta, OneLimit } from './limit.js';
import { limitNotStated, limitOnPart } from './limit-on-part.js';
import { longestTimedRise } from './longest-timed-rise.js';
import { riseTimeModel } from './models/rise-time-model.js';
import { percentText, quantityText } from './quantity-text.js';
import { readTimeToThreshold } from './read-time-to-threshold.js';
import { toNominal } from './to-nominal.js';

/** How long a rise may take. */
interface AllowedRise {
  readonly meta: LimitMeta;
  /** The field that says so, within `control.precharge`. */
  readonly field: 'timeout' | 'delay';
  /** s; undefined: not stated. */
  readonly time: number | undefined;
  /** Ratio to the open-circuit voltage up to which it counts. */
  readonly level: number;
  readonly read: (figures: Pick<VariedFacts, 'rise'>) => TimeFigure;
  /** True where the time itself is too long already. */
  readonly strict: boolean;
  /** What the time is, in words. */
  readonly text: string;
}

/**
 * The bound on each part, on the side of `meta`, with which the rise still ends in time: before the timeout, or as long before
 * the end of a timer as one that decides has to leave.
 */
export function riseTimeLimits(meta: LimitMeta, facts: Facts, parts: readonly BoundedPart[]): readonly OneLimit[] {
  if (facts.rise.steadyRatio.reason === 'no-path') return [];
  const allowed = allowedRise(meta, facts);
  const { time, level, read, text } = allowed;
  if (time === undefined) {
    const missing = [`${facts.circuit.pointer}/control/precharge/${allowed.field}`];
    return parts.map((part) => limitNotStated(allowed.meta, part, missing));
  }
  const { bound } = meta;
  return parts.map((part) =>
    limitOnPart(allowed.meta, {
      part,
      judgement: judgeTime(read(facts), time, allowed.strict),
      demands: [
        demandOn({
          facts,
          part,
          end: 'max',
          bound,
          read,
          measure: timeDemand(time),
          model: riseTimeModel(facts, part, bound, { time, level }),
        }),
      ],
      basis: (value) =>
        `A rise to p = ${percentText(level)} takes R·C·ln(1/(1 − p)) = ${quantityText(-Math.log1p(-level), '')}·R·C with nothing on the link, more with loads. With everything else of this car at its worst it takes ${text} at ${quantityText(value, part.unit)}${toNominal(part, bound)}.`,
    }),
  );
}

function allowedRise(meta: LimitMeta, { circuit, conditions }: Facts): AllowedRise {
  const { method, timeout, delay, threshold } = circuit.control.precharge ?? {};
  if (method !== 'timer') {
    return {
      meta,
      field: 'timeout',
      time: timeout,
      level: threshold ?? conditions.threshold,
      read: readTimeToThreshold,
      strict: true,
      text: `the timeout of ${quantityText(timeout ?? 0, 's')}`,
    };
  }
  const level = conditions.threshold;
  const time = delay === undefined ? undefined : longestTimedRise(delay);
  return {
    meta: timerMeta(meta),
    field: 'delay',
    time,
    level,
    read: ({ rise }) => rise.timeTo(level),
    strict: false,
    text: `the ${quantityText(time ?? 0, 's')} that a timer of ${quantityText(delay ?? 0, 's')} leaves for it`,
  };
}

/** A limit on the time of the rise, where a timer stands in the place of the timeout. */
function timerMeta(meta: LimitMeta): LimitMeta {
  return {
    ...meta,
    rule: 'precharge-compares-voltages',
    formula:
      'The lesser of half the timer’s delay and the delay less 0.5 s, over the other one of capacitance and pre-charge resistance times ln(1/(1 − level)); less where a load draws current.',
    sources: [
      'Charging of a capacitor through a resistance, textbook',
      'Delay: the car’s own',
      'Time of a timer and level: the ruleset',
    ],
  };
}
