import type { Resistor } from '../../circuit/model.js';
import type { Facts, Fall } from '../../facts/facts.js';
import type { Figure } from '../../facts/figure.js';
import { elementsOf } from '../elements-of.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { causedByRating } from '../judge-discharge-rating.js';
import { judgeHeat } from '../judge-heat.js';
import { judgePower } from '../judge-power.js';
import { listOutcome } from '../list-outcome.js';
import { closest, type Measured } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import type { Outcome, Rule } from '../rule.js';
import { worstFirst } from '../worst-first.js';

export const rule: Rule = {
  meta: {
    id: 'discharge-repeats',
    title: 'Discharges in a row do not overheat the discharge resistor',
    rationale:
      'The shutdown circuit is tried several times at inspection. The discharge must still be whole and in time after the last of them.',
    parameters: ['repeats'],
    messages: {
      met: 'The discharge resistor ({elements}) stands {count} discharges within {within}.',
      violated: 'The discharge resistor does not stand {count} discharges within {within}: {problems}.',
      undetermined:
        'Whether the discharge resistor stands {count} discharges within {within} cannot be told without {fields}.',
      none: 'There is no discharge resistor to judge.',
    },
    remedies: {
      replace:
        'Fit a discharge resistor with more thermal mass or a higher power rating as mounted: it must stand {needed} each time, {preferred} with a margin of 20 %.',
    },
    inspect: 'Discharge the link as often as the book says, with an official, and time the last one.',
  },
  check(facts, ruleset): Outcome {
    const { circuit, topology } = facts;
    const { count, within } = ruleset.conditions.repeats;
    const resistors = elementsOf(circuit, topology.dischargeResistors, 'resistor');
    const judged = resistors.flatMap((resistor) => judgeResistor(facts, resistor, count, within / count));
    if (judged.length === 0) return { status: 'not-applicable', message: 'none', causedBy: ['discharge-time'] };
    const needed = Math.max(0, ...judged.map(({ energy }) => energy ?? 0));
    const outcome = listOutcome(circuit, {
      wrong: judged.filter(({ status }) => status === 'violated').map(({ id, text }) => ({ elements: [id], text })),
      missing: judged.filter(({ status }) => status === 'undetermined').flatMap(({ missing }) => missing),
      elements: judged.map(({ id }) => id),
      evidence: {
        ...closest(judged.map(({ measured }) => measured)),
        path: judged.map(({ id }) => id),
        repeats: { count, within },
        resistors: judged.map(({ id, status, energy }) => ({ resistor: id, status, energy })),
      },
      values: {
        count,
        within: formatQuantity(within, 's'),
        needed: formatQuantity(needed, 'J'),
        preferred: formatQuantity(roundUp(needed / (1 - MARGIN), 3), 'J'),
      },
      remedy: 'replace',
    });
    if (outcome.status !== 'violated') return outcome;
    const causedBy = causedByRating(facts, outcome.elements ?? [], ruleset.conditions.dischargeRatingTime);
    return { ...outcome, causedBy };
  },
};

/** By the state in which it fares worst; a resistor that stands the highest voltage permanently stands any row of discharges. */
function judgeResistor(facts: Facts, resistor: Resistor, count: number, interval: number) {
  return facts.falls
    .flatMap((fall) => judgeFall(facts, fall, resistor, count, interval))
    .sort(worstFirst)
    .slice(0, 1);
}

function judgeFall({ circuit }: Facts, fall: Fall, resistor: Resistor, count: number, interval: number) {
  const { id } = resistor;
  const energy = fall.resistorEnergy.get(id);
  const power = fall.continuousPower.get(id);
  if (energy === undefined || power === undefined) return [];
  const permanent = judgePower(resistor, circuit, power, null);
  if (permanent.status === 'met') {
    const measured: Measured = { actual: permanent.power, limit: permanent.atLeast, side: 'below', unit: 'W' };
    return [{ id, status: 'met' as const, missing: [], energy: energy.max, measured, text: '' }];
  }
  const temperature = (): Figure => fall.repeatsPeakTemperature(id, count, interval);
  const { status, missing, measured } = judgeHeat(resistor, circuit, { energy, count, temperature });
  const texts = formatAgainst(measured.actual, measured.limit, measured.unit);
  const text = `${id} reaches ${texts.value} and stands ${texts.limit}`;
  return [{ id, status, missing, energy: energy.max, measured: measured as Measured, text }];
}
