import { dividerLimit } from '../divider-limit.js';
import { closedForm } from '../closed-forms/closed-form.js';
import { dividerResistance } from '../closed-forms/divider-resistance.js';
import { parallelResistance } from '../closed-forms/parallel-resistance.js';
import type { Limit, LimitMeta } from '../limit.js';
import { prechargeResistors } from '../present-parts.js';

const meta: LimitMeta = {
  name: 'precharge-resistance-max-loads',
  title: 'Largest pre-charge resistance with which the link settles above the ruleset’s level',
  unit: 'Ω',
  bound: 'max',
  rule: 'precharge-reaches-threshold',
  formula:
    'Load resistance times (1 − level) over level; where loads start, stop or draw a constant power, what the computed rise allows.',
  sources: ['Voltage divider, textbook', 'Level: the ruleset'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => {
    if (facts.rise.steadyRatio.reason === 'no-path') return [];
    return prechargeResistors(facts).map((part) => dividerLimit(meta, facts, part, facts.conditions.threshold));
  },
  fromScalars: closedForm(meta.bound, {
    required: ['loadResistance', 'threshold'],
    optional: ['tolerance'],
    formula: 'R = L·(1 − p)/p/(1 + tolerance), L the loads in parallel, p the threshold',
    compute: ({ loadResistance, threshold, tolerance = 0 }) =>
      dividerResistance(parallelResistance(loadResistance), threshold) / (1 + tolerance),
  }),
};
