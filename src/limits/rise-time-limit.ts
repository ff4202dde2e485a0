import type { Facts } from '../facts/facts.js';
import type { BoundedPart } from './bounded-part.js';
import { demandOn, timeDemand } from './demand.js';
import { judgeTime } from './judgement.js';
import type { LimitMeta, OneLimit } from './limit.js';
import { limitNotStated, limitOnPart } from './limit-on-part.js';
import { riseTimeModel } from './models/rise-time-model.js';
import { percentText, quantityText } from './quantity-text.js';
import { readTimeToThreshold } from './read-time-to-threshold.js';
import { toNominal } from './to-nominal.js';

/** The largest value of each part with which the rise still ends before the timeout. */
export function riseTimeLimits(meta: LimitMeta, facts: Facts, parts: readonly BoundedPart[]): readonly OneLimit[] {
  const { circuit, conditions } = facts;
  const { method, timeout, threshold } = circuit.control.precharge ?? {};
  if (method === 'timer' || facts.rise.steadyRatio.reason === 'no-path') return [];
  if (timeout === undefined) {
    return parts.map((part) => limitNotStated(meta, part, [`${circuit.pointer}/control/precharge/timeout`]));
  }
  const time = facts.rise.timeToThreshold;
  const level = threshold ?? conditions.threshold;
  return parts.map((part) =>
    limitOnPart(meta, {
      part,
      judgement: judgeTime(time, timeout, true),
      demands: [
        demandOn({
          facts,
          part,
          end: 'max',
          bound: 'max',
          read: readTimeToThreshold,
          measure: timeDemand(timeout),
          model: riseTimeModel(facts, part, 'max', timeout),
        }),
      ],
      basis: (value) =>
        `A rise to p = ${percentText(level)} takes R·C·ln(1/(1 − p)) = ${quantityText(-Math.log1p(-level), '')}·R·C with nothing on the link, more with loads. With everything else of this car at its worst it takes the timeout of ${quantityText(timeout, 's')} at ${quantityText(value, part.unit)}${toNominal(part, 'max')}.`,
    }),
  );
}
