import { boundedPart } from '../bounded-part.js';
import { closedForm } from '../closed-forms/closed-form.js';
import { demandOn, sizeDemand } from '../demand.js';
import { dischargePowers, ratingTimeText } from '../discharge-power.js';
import { judgeAll, judgePower } from '../judgement.js';
import type { Limit, LimitMeta } from '../limit.js';
import { limitNotStated, limitOnPart } from '../limit-on-part.js';
import { firstCurrentModel } from '../models/first-current-model.js';
import { quantityText } from '../quantity-text.js';
import { timedAllowance } from '../ratings/timed-allowance.js';
import { sameFigure } from '../same-figure.js';
import { toNominal } from '../to-nominal.js';

const meta: LimitMeta = {
  name: 'discharge-resistance-min-power',
  title: 'Smallest discharge resistance that stands the highest voltage for the ruleset’s time',
  unit: 'Ω',
  bound: 'min',
  rule: 'discharge-rating',
  formula: 'Highest voltage squared over the power that the resistor stands as mounted, at its ambient.',
  sources: ['Joule heating, textbook', 'Time: the ruleset', 'Derating: the form of MIL-PRF-39009'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => {
    const { circuit, conditions } = facts;
    const time = conditions.dischargeRatingTime;
    return dischargePowers(facts).flatMap(({ resistor, states }) => {
      const part = boundedPart(circuit, conditions, resistor.id);
      if (part === undefined) return [];
      const allowance = timedAllowance(resistor, circuit, time);
      const judgement = judgeAll(states.map(({ power }) => judgePower(power, allowance)));
      if (allowance.atLeast <= 0 && allowance.missing.length > 0) {
        return [limitNotStated(meta, part, allowance.missing, judgement.satisfied === false)];
      }
      const distinct = states.filter(
        ({ power }, index) => states.findIndex((each) => sameFigure(each.power, power)) === index,
      );
      return [
        limitOnPart(meta, {
          part,
          judgement,
          demands: distinct.map(({ fall, power }) =>
            demandOn({
              facts,
              part,
              end: 'max',
              bound: meta.bound,
              read: ({ falls }) => falls[fall]?.continuousPower.get(part.id),
              measure: sizeDemand(allowance.atLeast),
              model: firstCurrentModel(facts, part, power, { kind: 'power', allowed: allowance.atLeast }),
            }),
          ),
          basis: (value) =>
            `With a welded relay the highest voltage U = ${quantityText(facts.openCircuitVoltage.max ?? 0, 'V')} stays on R, which stands P = ${quantityText(allowance.atLeast, 'W')} ${ratingTimeText(time)}: R is at least U²/P, here ${quantityText(value, 'Ω')}${toNominal(part, 'min')}.`,
        }),
      ];
    });
  },
  fromScalars: closedForm(meta.bound, {
    required: ['voltage', 'ratedPower'],
    optional: ['tolerance'],
    formula: 'R = U²/P/(1 − tolerance)',
    compute: ({ voltage, ratedPower, tolerance = 0 }) => voltage ** 2 / ratedPower / (1 - tolerance),
  }),
};
