import { closedForm } from '../closed-forms/closed-form.js';
import { parallelResistance } from '../closed-forms/parallel-resistance.js';
import { slowestRise } from '../closed-forms/slowest-rise.js';
import type { Limit, LimitMeta } from '../limit.js';
import { prechargeResistors } from '../present-parts.js';
import { riseTimeLimits } from '../rise-time-limit.js';

const meta: LimitMeta = {
  name: 'precharge-resistance-max-time',
  title: 'Largest pre-charge resistance with which the rise ends before the timeout',
  unit: 'Ω',
  bound: 'max',
  rule: 'precharge-completes-in-time',
  formula: 'Timeout over capacitance times ln(1/(1 − threshold)); less where a load draws current.',
  sources: ['Charging of a capacitor through a resistance, textbook', 'Timeout and threshold: the car’s own'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => riseTimeLimits(meta, facts, prechargeResistors(facts)),
  fromScalars: closedForm(meta.bound, {
    required: ['capacitance', 'time', 'threshold'],
    optional: ['loadResistance', 'tolerance'],
    formula:
      'R = t/(C·ln(1/(1 − p)))/(1 + tolerance); with a load L the R at which (R ∥ L)·C·ln(s/(s − p)) = t, s = L/(R + L)',
    compute: ({ capacitance, time, threshold, loadResistance = [], tolerance = 0 }) =>
      slowestRise(capacitance, time, threshold, parallelResistance(loadResistance)) / (1 + tolerance),
  }),
};
