import { elementById } from '../../circuit/model.js';
import { closedForm } from '../closed-forms/closed-form.js';
import { judgedEnds } from '../judgement.js';
import { judgePrechargeResistor, judgeRiseTemperature } from '../judge-precharge-resistor.js';
import type { Limit, LimitMeta } from '../limit.js';
import { quantityText } from '../quantity-text.js';
import { ratedPowerLimit } from '../rated-power-limit.js';
import { prechargeAllowance } from '../ratings/precharge-allowance.js';

const meta: LimitMeta = {
  name: 'precharge-power-rating-min',
  title:
    'Smallest power rating of the pre-charge resistor for the first instant, and for a rise into a short until the timeout',
  unit: 'W',
  bound: 'min',
  rule: 'precharge-resistor-rating',
  formula:
    'Highest voltage squared over smallest resistance, over the overload factor and the share left by derating. No rating helps where a rise alone makes it too hot.',
  sources: ['Joule heating, textbook', 'Derating: the form of MIL-PRF-39009'],
};

export const limit: Limit = {
  meta,
  compute: ({ circuit, rise }) => {
    const resistor = elementById(circuit, rise.resistor ?? '');
    if (resistor?.kind !== 'resistor' || rise.resistorPeakPower.reason === 'no-path') return [];
    const { short } = prechargeAllowance(resistor, circuit);
    return [
      ratedPowerLimit(meta, {
        resistor,
        judgement: judgePrechargeResistor(resistor, circuit, rise),
        // The temperature of a sound rise is a matter of heat and mass, whatever the rating.
        inVain: judgeRiseTemperature(resistor, rise).satisfied === false,
        power: judgedEnds(rise.resistorPeakPower).max,
        at: rise.resistorPeakPower.at.max,
        allowance: (rated) => prechargeAllowance(rated, circuit),
        when:
          short === undefined ? 'at the first instant' : `for the ${quantityText(short, 's')} of a rise into a short`,
      }),
    ];
  },
  fromScalars: closedForm(meta.bound, {
    required: ['voltage', 'prechargeResistance'],
    formula: 'P = U²/R, to be stood until the timeout',
    compute: ({ voltage, prechargeResistance }) => voltage ** 2 / prechargeResistance,
  }),
};
