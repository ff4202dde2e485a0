import type { Resistor } from '../../circuit/model.js';
import { elementsOf } from '../elements-of.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { judgeDischargeRating } from '../judge-discharge-rating.js';
import type { PowerJudgement } from '../judge-power.js';
import { listOutcome } from '../list-outcome.js';
import { closest, type Measured } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'discharge-rating',
    title: 'The discharge resistor stands the highest voltage',
    rationale:
      'If an isolation relay welds, the accumulator keeps feeding the discharge resistor. It must survive that where and as it is mounted, or it burns open and the discharge is gone with it.',
    parameters: ['dischargeRatingTime'],
    messages: {
      met: 'The discharge resistor stands the highest voltage {duration}: {figures}.',
      violated: 'The discharge resistor does not stand the highest voltage {duration}: {problems}.',
      undetermined:
        'Whether the discharge resistor stands the highest voltage {duration} cannot be told without {fields}.',
      none: 'There is no discharge resistor to judge.',
    },
    remedies: {
      replace:
        'Fit a resistor that stands at least {needed} as mounted and at its ambient {duration}; {preferred} leaves a margin of 20 %. Or raise its resistance, as far as the discharge time allows.',
    },
    inspect:
      'Read the type of the discharge resistor, look at what it is screwed to, and feel nothing: it may be hot and live.',
  },
  check(facts, ruleset): Outcome {
    const { circuit, topology } = facts;
    const time = ruleset.conditions.dischargeRatingTime;
    const resistors = elementsOf(circuit, topology.dischargeResistors, 'resistor');
    const judged = resistors.flatMap((resistor): Judged[] => {
      const result = judgeDischargeRating(facts, resistor, time);
      return result === undefined ? [] : [{ resistor, result }];
    });
    if (judged.length === 0) return { status: 'not-applicable', message: 'none', causedBy: ['discharge-time'] };
    const failing = judged.filter(({ result }) => result.status === 'violated');
    const needed = Math.max(0, ...failing.map(({ result }) => result.power));
    return listOutcome(circuit, {
      wrong: failing.map(({ resistor, result }) => {
        const texts = formatAgainst(result.power, result.atMost, 'W');
        return {
          elements: [resistor.id],
          text: `${resistor.id} takes ${texts.value} and stands ${texts.limit} at most`,
        };
      }),
      missing: judged.flatMap(({ result }) => (result.status === 'undetermined' ? result.missing : [])),
      elements: judged.map(({ resistor }) => resistor.id),
      evidence: {
        ...closest(judged.map(({ result }) => measured(result))),
        path: judged.map(({ resistor }) => resistor.id),
        ratingTime: time,
        resistors: judged.map(asEvidence),
      },
      values: {
        duration: time === null ? 'permanently' : `for ${formatQuantity(time, 's')}`,
        figures: judged
          .map(
            ({ resistor, result }) =>
              `${resistor.id} takes ${formatQuantity(result.power, 'W')} of ${formatQuantity(result.atLeast, 'W')}`,
          )
          .join('; '),
        needed: formatQuantity(needed, 'W'),
        preferred: formatQuantity(roundUp(needed / (1 - MARGIN), 3), 'W'),
      },
      remedy: 'replace',
    });
  },
};

interface Judged {
  readonly resistor: Resistor;
  readonly result: PowerJudgement;
}

function measured({ status, power, search, atLeast, atMost }: PowerJudgement): Measured {
  return { actual: power, limit: status === 'violated' ? atMost : atLeast, side: 'below', unit: 'W', search };
}

function asEvidence({ resistor, result }: Judged) {
  const { status, power, atLeast, atMost, ambient } = result;
  const finite = (value: number) => (Number.isFinite(value) ? value : null);
  return {
    resistor: resistor.id,
    status,
    power: finite(power),
    atLeast: finite(atLeast),
    atMost: finite(atMost),
    ambient: ambient ?? null,
  };
}
