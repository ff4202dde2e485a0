import { closedForm } from '../closed-forms/closed-form.js';
import { parallelResistance } from '../closed-forms/parallel-resistance.js';
import { riseTime } from '../closed-forms/rise-time.js';
import type { Limit, LimitMeta } from '../limit.js';
import { linkCapacitors } from '../present-parts.js';
import { riseTimeLimits } from '../rise-time-limit.js';

const meta: LimitMeta = {
  name: 'link-capacitance-max-precharge',
  title: 'Largest link capacitance with which the rise ends before the timeout',
  unit: 'F',
  bound: 'max',
  rule: 'precharge-completes-in-time',
  formula: 'Timeout over pre-charge resistance times ln(1/(1 − threshold)); less where a load draws current.',
  sources: ['Charging of a capacitor through a resistance, textbook', 'Timeout and threshold: the car’s own'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => riseTimeLimits(meta, facts, linkCapacitors(facts)),
  fromScalars: closedForm(meta.bound, {
    required: ['prechargeResistance', 'time', 'threshold'],
    optional: ['loadResistance', 'tolerance'],
    formula: 'C = t/((R ∥ L)·ln(s/(s − p)))/(1 + tolerance), s = L/(R + L); without a load t/(R·ln(1/(1 − p)))',
    compute: ({ prechargeResistance, time, threshold, loadResistance = [], tolerance = 0 }) =>
      time / riseTime(prechargeResistance, 1, parallelResistance(loadResistance), threshold) / (1 + tolerance),
  }),
};
