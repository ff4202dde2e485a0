import type { Resistor } from '../../circuit/model.js';
import { drivingPower } from '../driving-power.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { causedByRating } from '../judge-discharge-rating.js';
import { judgePower } from '../judge-power.js';
import { listOutcome } from '../list-outcome.js';
import { closest } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import type { Outcome, Rule } from '../rule.js';

/** W below which no resistor of any make is at risk, so that none of its ratings is asked for. Common practice, no source. */
const NEGLIGIBLE = 0.02;

export const rule: Rule = {
  meta: {
    id: 'permanent-load-rating',
    title: 'Resistors that see the link while driving stand it permanently',
    rationale:
      'A bleed resistor, a divider or a discharge resistor without a contact is on for as long as the car is. A rating for seconds is no rating for an endurance run.',
    parameters: [],
    messages: {
      met: 'Every resistor on the link while driving stands it permanently ({elements}).',
      violated: 'A resistor on the link while driving does not stand it permanently: {problems}.',
      undetermined:
        'Whether every resistor on the link while driving stands it permanently cannot be told without {fields}.',
      none: 'No resistor takes notable power from the link while driving.',
    },
    remedies: {
      replace:
        'Fit resistors rated, as mounted, for at least: {needed} (a margin of 20 %). Or switch them off while driving.',
    },
    inspect: 'Find the resistors that are connected to the link without a contact, and read their types.',
  },
  check(facts, ruleset): Outcome {
    const { circuit } = facts;
    const judged = circuit.elements
      .filter((element): element is Resistor => element.kind === 'resistor')
      .map((resistor) => ({ resistor, power: drivingPower(facts, resistor) }))
      .filter(({ power }) => (power.max ?? 0) >= NEGLIGIBLE)
      .map(({ resistor, power }) => ({ resistor, result: judgePower(resistor, circuit, power, null) }));
    if (judged.length === 0) return { status: 'not-applicable', message: 'none' };
    const failing = judged.filter(({ result }) => result.status === 'violated');
    const outcome = listOutcome(circuit, {
      wrong: failing.map(({ resistor, result }) => {
        const texts = formatAgainst(result.power, result.atMost, 'W');
        return { elements: [resistor.id], text: `${resistor.id} takes ${texts.value} and stands ${texts.limit}` };
      }),
      missing: judged.filter(({ result }) => result.status === 'undetermined').flatMap(({ result }) => result.missing),
      elements: judged.map(({ resistor }) => resistor.id),
      evidence: {
        ...closest(
          judged.map(({ result: { status, power, atLeast, atMost } }) => ({
            actual: power,
            limit: status === 'violated' ? atMost : atLeast,
            side: 'below' as const,
            unit: 'W',
          })),
        ),
        path: judged.map(({ resistor }) => resistor.id),
        resistors: judged.map(({ resistor, result }) => ({
          resistor: resistor.id,
          power: result.power,
          status: result.status,
        })),
      },
      values: {
        needed: failing
          .map(
            ({ resistor, result }) => `${resistor.id} ${formatQuantity(roundUp(result.power / (1 - MARGIN), 3), 'W')}`,
          )
          .join('; '),
      },
      remedy: 'replace',
    });
    if (outcome.status !== 'violated') return outcome;
    const causedBy = causedByRating(facts, outcome.elements ?? [], ruleset.conditions.dischargeRatingTime);
    return { ...outcome, causedBy };
  },
};
