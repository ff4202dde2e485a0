import { closedForm } from '../closed-forms/closed-form.js';
import { fallConstant } from '../closed-forms/fall-constant.js';
import { fallTimeLimits } from '../fall-time-limit.js';
import type { Limit, LimitMeta } from '../limit.js';
import { linkCapacitors } from '../present-parts.js';

const meta: LimitMeta = {
  name: 'link-capacitance-max-discharge',
  title: 'Largest link capacitance that falls in time in every state',
  unit: 'F',
  bound: 'max',
  rule: 'discharge-time',
  formula:
    'Time allowed, less the release of the relays, over discharge resistance times ln(highest voltage over limit voltage).',
  sources: ['Discharging of a capacitor through a resistance, textbook', 'Time and voltage: the ruleset'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => fallTimeLimits(meta, facts, linkCapacitors(facts)),
  fromScalars: closedForm(meta.bound, {
    required: ['dischargeResistance', 'voltage', 'limitVoltage', 'time'],
    optional: ['tolerance'],
    formula: 'C = t/(R·ln(U/u))/(1 + tolerance)',
    compute: ({ dischargeResistance, voltage, limitVoltage, time, tolerance = 0 }) =>
      fallConstant(time, voltage, limitVoltage) / dischargeResistance / (1 + tolerance),
  }),
};
