import { closedForm } from '../closed-forms/closed-form.js';
import { dividerResistance } from '../closed-forms/divider-resistance.js';
import { parallelResistance } from '../closed-forms/parallel-resistance.js';
import { dividerLimit } from '../divider-limit.js';
import { judgeAbove } from '../judgement.js';
import type { Limit, LimitMeta } from '../limit.js';
import { limitNotStated } from '../limit-on-part.js';
import { prechargeResistors } from '../present-parts.js';

const meta: LimitMeta = {
  name: 'precharge-resistance-max-setting',
  title: 'Largest pre-charge resistance with which the comparison is sure to be satisfied',
  unit: 'Ω',
  bound: 'max',
  rule: 'precharge-reaches-setting',
  formula:
    'Load resistance times (1 − highest setting) over it, the highest setting being threshold plus comparison error; where loads start, stop or draw a constant power, what the computed rise allows.',
  sources: ['Voltage divider, textbook', 'Threshold and comparison error: the car’s own'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => {
    const { circuit, rise } = facts;
    const { method, threshold, comparisonError } = circuit.control.precharge ?? {};
    if (method === 'timer' || rise.steadyRatio.reason === 'no-path') return [];
    const parts = prechargeResistors(facts);
    if (threshold !== undefined && comparisonError !== undefined) {
      return parts.map((part) => dividerLimit(meta, facts, part, threshold + comparisonError));
    }
    const base = `${circuit.pointer}/control/precharge`;
    const missing = [
      ...(threshold === undefined ? [`${base}/threshold`] : []),
      ...(comparisonError === undefined ? [`${base}/comparisonError`] : []),
    ];
    // An error not stated can only make it worse.
    const violated = judgeAbove(rise.steadyRatio, threshold ?? 0).satisfied === false;
    return parts.map((part) => limitNotStated(meta, part, missing, violated));
  },
  fromScalars: closedForm(meta.bound, {
    required: ['loadResistance', 'threshold'],
    optional: ['tolerance'],
    formula: 'R = L·(1 − p)/p/(1 + tolerance), L the loads in parallel, p the threshold with its error added',
    compute: ({ loadResistance, threshold, tolerance = 0 }) =>
      dividerResistance(parallelResistance(loadResistance), threshold) / (1 + tolerance),
  }),
};
