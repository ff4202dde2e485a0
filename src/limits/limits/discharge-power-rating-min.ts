import { closedForm } from '../closed-forms/closed-form.js';
import { dischargePowers, ratingTimeText } from '../discharge-power.js';
import { judgeAll, judgedEnds, judgePower } from '../judgement.js';
import type { Limit, LimitMeta } from '../limit.js';
import { ratedPowerLimit } from '../rated-power-limit.js';
import { timedAllowance } from '../ratings/timed-allowance.js';

const meta: LimitMeta = {
  name: 'discharge-power-rating-min',
  title: 'Smallest power rating with which the discharge resistor stands the highest voltage for the ruleset’s time',
  unit: 'W',
  bound: 'min',
  rule: 'discharge-rating',
  formula:
    'Highest voltage squared over smallest resistance, over the share left by derating and, for a limited time, the overload factor.',
  sources: ['Joule heating, textbook', 'Time: the ruleset', 'Derating: the form of MIL-PRF-39009'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => {
    const { circuit } = facts;
    const time = facts.conditions.dischargeRatingTime;
    return dischargePowers(facts).map(({ resistor, states }) => {
      const allowance = timedAllowance(resistor, circuit, time);
      const powers = states.map(({ power }) => judgedEnds(power).max);
      const [largest] = [...states].sort((a, b) => (b.power.max ?? 0) - (a.power.max ?? 0));
      return ratedPowerLimit(meta, {
        resistor,
        judgement: judgeAll(states.map(({ power }) => judgePower(power, allowance))),
        power: powers.includes(null) ? null : Math.max(...powers.map((power) => power ?? 0)),
        at: largest?.power.at.max,
        allowance: (rated) => timedAllowance(rated, circuit, time),
        when: ratingTimeText(time),
      });
    });
  },
  fromScalars: closedForm(meta.bound, {
    required: ['voltage', 'dischargeResistance'],
    formula: 'P = U²/R, to be stood for the ruleset’s time',
    compute: ({ voltage, dischargeResistance }) => voltage ** 2 / dischargeResistance,
  }),
};
