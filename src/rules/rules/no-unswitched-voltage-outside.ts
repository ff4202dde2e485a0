import type { Exposure, Pole } from '../../facts/facts.js';
import { formatQuantity } from '../format-quantity.js';
import { listOutcome } from '../list-outcome.js';
import { measuredAgainst } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import type { Outcome, Rule } from '../rule.js';
import { wayText } from '../way-text.js';

export const rule: Rule = {
  meta: {
    id: 'no-unswitched-voltage-outside',
    title: 'No accumulator voltage outside a container at rest',
    rationale:
      'A conductor that stays connected to a pole with every relay open is live in a car that everybody takes for dead. Sense leads and a pre-charge resistor ahead of its relay are the usual culprits.',
    parameters: ['isolationPerVolt'],
    messages: {
      met: 'With every contact at rest nothing outside a container conducts to a pole.',
      leak: 'With every contact at rest only leads behind enough resistance remain: {leads}.',
      violated: 'With every contact at rest accumulator voltage stands outside a container: {problems}.',
      undetermined: 'Whether accumulator voltage stands outside a container at rest cannot be told without {fields}.',
    },
    remedies: {
      moveInside:
        'Put the relay first, inside the container, and what it feeds behind it; give a sense lead its resistance inside the container: {resistance} or more, {preferred} for a margin of 20 %.',
    },
    inspect:
      'With the shutdown circuit open, an official measures from each pole’s leads outside the container; nothing may be live. Find the resistors of the sense leads: they belong inside.',
  },
  check({ circuit, conditions, exits, exposures, openCircuitVoltage }, ruleset): Outcome {
    const volts = openCircuitVoltage.max ?? openCircuitVoltage.nominal ?? ruleset.conditions.maximumVoltage;
    const needed = ruleset.conditions.isolationPerVolt * volts;
    const dangerous = exposures.filter((exposure) => exposure.dangerous);
    const nearest = dangerous.filter((exposure) => !dangerous.some((other) => liesBehind(exposure, other)));
    const leads = exposures.filter((exposure) => !exposure.dangerous && exposure.missing.length === 0);
    const outcome = listOutcome(circuit, {
      wrong: nearest.map((exposure) => ({ elements: exposure.path.elements, text: describe(exposure) })),
      missing: exposures.flatMap((exposure) => exposure.missing),
      elements: [],
      evidence: {
        ...closestExposure(nearest.length > 0 ? nearest : exposures, needed),
        isolationPerVolt: conditions.isolationPerVolt,
        needed,
        exposures: exposures.map(asEvidence),
      },
      values: {
        resistance: formatQuantity(needed, 'Ω'),
        preferred: formatQuantity(roundUp(needed / (1 - MARGIN), 2), 'Ω'),
        leads: leads.map(describe).join('; '),
      },
      remedy: 'moveInside',
    });
    if (outcome.status === 'met' && leads.length > 0) return { ...outcome, message: 'leak' };
    // A pole that no relay cuts is live outside because of that.
    const uncut = ({ pole }: Exposure) => exits.some((exit) => exit.faults.length > 0 && samePole(exit.pole, pole));
    const consequence = outcome.status === 'violated' && nearest.every(uncut);
    return consequence ? { ...outcome, causedBy: ['isolation-both-poles'] } : outcome;
  },
};

/** The least resistance to a pole against what counts as isolated. */
function closestExposure(exposures: readonly Exposure[], needed: number) {
  const [least] = [...exposures].sort((a, b) => a.resistance - b.resistance);
  if (least === undefined) return {};
  return {
    ...measuredAgainst({ actual: least.resistance, limit: needed, side: 'above', unit: 'Ω' }),
    path: least.path.elements,
  };
}

function samePole(a: Pole, b: Pole): boolean {
  return a.container === b.container && a.polarity === b.polarity;
}

/** True where the way to `exposure` leads through the whole way to `other`: then it is live because that is. */
function liesBehind(exposure: Exposure, other: Exposure): boolean {
  const way = exposure.path.elements;
  const shorter = other.path.elements;
  return (
    samePole(exposure.pole, other.pole) &&
    shorter.length < way.length &&
    shorter.every((id, index) => id === way[index])
  );
}

function describe({ pole, node, path, resistance, current, aheadOutside }: Exposure): string {
  const way = `node ${node} at the ${pole.polarity} pole of container ${pole.container} ${wayText(path.elements)}`;
  const feeds = Number.isFinite(current)
    ? `feeds ${formatQuantity(current, 'A')} into a short`
    : 'a short there is a short circuit of the accumulator';
  return `${way} (${formatQuantity(resistance, 'Ω')}, ${feeds}${aheadOutside ? ', and a conductor ahead of the resistance is outside' : ''})`;
}

function asEvidence({ pole, node, path, resistance, current, aheadOutside, dangerous }: Exposure) {
  const finite = (value: number) => (Number.isFinite(value) ? value : null);
  return {
    container: pole.container,
    pole: pole.polarity,
    node,
    path: path.elements,
    resistance: finite(resistance),
    current: finite(current),
    aheadOutside,
    dangerous,
  };
}
