import { closedForm } from '../closed-forms/closed-form.js';
import { fallConstant } from '../closed-forms/fall-constant.js';
import { fallTimeLimits } from '../fall-time-limit.js';
import type { Limit, LimitMeta } from '../limit.js';
import { dischargeResistors } from '../present-parts.js';

const meta: LimitMeta = {
  name: 'discharge-resistance-max-time',
  title: 'Largest discharge resistance with which the link falls in time in every state',
  unit: 'Ω',
  bound: 'max',
  rule: 'discharge-time',
  formula:
    'Time allowed, less the release of the relays, over capacitance times ln(highest voltage over limit voltage).',
  sources: ['Discharging of a capacitor through a resistance, textbook', 'Time and voltage: the ruleset'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => fallTimeLimits(meta, facts, dischargeResistors(facts)),
  fromScalars: closedForm(meta.bound, {
    required: ['capacitance', 'voltage', 'limitVoltage', 'time'],
    optional: ['tolerance'],
    formula: 'R = t/(C·ln(U/u))/(1 + tolerance)',
    compute: ({ capacitance, voltage, limitVoltage, time, tolerance = 0 }) =>
      fallConstant(time, voltage, limitVoltage) / capacitance / (1 + tolerance),
  }),
};
