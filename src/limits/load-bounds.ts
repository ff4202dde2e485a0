import type { Facts } from '../facts/facts.js';
import type { BoundedPart } from './bounded-part.js';
import { demandOn, ratioDemand } from './demand.js';
import { judgeAbove } from './judgement.js';
import type { LimitMeta, OneLimit } from './limit.js';
import { limitNotStated, limitOnPart } from './limit-on-part.js';
import { limit as settingLimit } from './limits/precharge-resistance-max-setting.js';
import { limit as timeLimit } from './limits/precharge-resistance-max-time.js';
import { loadModel } from './models/load-model.js';
import { readSteadyRatio } from './read-steady-ratio.js';
import { riseTimeLimits } from './rise-time-limit.js';

/**
 * What the setting and the timeout ask of a part that loads the rise, for its window: the limits of these names state it for
 * the pre-charge resistor only, and a discharge resistor that is never switched off can keep the ruleset's level and miss both.
 */
export function loadBounds(facts: Facts, part: BoundedPart): readonly OneLimit[] {
  const { circuit, rise } = facts;
  const { method, threshold, comparisonError } = circuit.control.precharge ?? {};
  if (rise.steadyRatio.reason === 'no-path') return [];
  const base = `${circuit.pointer}/control/precharge`;
  return [
    ...(method === 'timer' ? [] : [settingBound(facts, part, base, { threshold, comparisonError })]),
    ...riseTimeLimits(asMin(timeLimit.meta), facts, [part]),
  ];
}

function settingBound(
  facts: Facts,
  part: BoundedPart,
  base: string,
  {
    threshold,
    comparisonError,
  }: { readonly threshold: number | undefined; readonly comparisonError: number | undefined },
): OneLimit {
  const meta = asMin(settingLimit.meta);
  if (threshold === undefined || comparisonError === undefined) {
    const missing = [
      ...(threshold === undefined ? [`${base}/threshold`] : []),
      ...(comparisonError === undefined ? [`${base}/comparisonError`] : []),
    ];
    return limitNotStated(meta, part, missing);
  }
  const level = threshold + comparisonError;
  return limitOnPart(meta, {
    part,
    judgement: judgeAbove(facts.rise.steadyRatio, level),
    demands: [
      demandOn({
        facts,
        part,
        end: 'min',
        bound: 'min',
        read: readSteadyRatio,
        measure: ratioDemand(level),
        model: loadModel(facts, part, level),
      }),
    ],
    basis: () => settingLimit.meta.formula,
  });
}

function asMin(meta: LimitMeta): LimitMeta {
  return { ...meta, bound: 'min', unit: 'Ω' };
}
