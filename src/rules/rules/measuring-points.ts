import type { Facts } from '../../facts/facts.js';
import type { Figure } from '../../facts/figure.js';
import { fieldNames } from '../field-names.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { judgePower } from '../judge-power.js';
import { listOutcome, type Wrong } from '../list-outcome.js';
import { pointProtection } from '../../limits/points/point-protection.js';
import { wantedProtection, type WantedProtection } from '../../limits/points/wanted-protection.js';
import { closest, type Measured } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'measuring-points',
    title: 'The measuring points’ resistors protect the hand and stand a short',
    rationale:
      'The resistor behind each measuring point limits what a slipped probe or a finger can draw. It must be large enough for the voltage, and survive the two points shorted.',
    parameters: ['bodyProtection'],
    messages: {
      met: 'Each measuring point has its {wanted}, which stands a short of the points ({power} each).',
      violated: 'The measuring points’ resistors do not fit: {problems}.',
      undetermined: 'Whether the measuring points’ resistors fit cannot be told without {fields}.',
      beyond: 'The ruleset names no resistor for {volts}, so none can be judged.',
    },
    remedies: {
      fit: 'Fit {wanted} behind each point, rated for at least {power}, {preferred} with a margin of 20 %, as close to where its lead begins as can be.',
    },
    inspect: 'Measure from each point to the link with everything proved dead: the resistor’s value must read.',
  },
  check(facts, { conditions }): Outcome {
    const { circuit, openCircuitVoltage } = facts;
    const points = circuit.measuringPoints;
    const volts = openCircuitVoltage.max;
    if (points === undefined || volts === null) {
      const missing =
        points === undefined ? [`${circuit.pointer}/measuringPoints`] : (openCircuitVoltage.missing ?? []);
      return {
        status: 'undetermined',
        message: 'undetermined',
        values: { fields: fieldNames(circuit, missing) },
        missing,
      };
    }
    const wanted = wantedProtection(volts, conditions);
    if (wanted === undefined) {
      return {
        status: 'not-applicable',
        message: 'beyond',
        values: { volts: formatQuantity(volts, 'V') },
        causedBy: ['highest-voltage'],
      };
    }
    const parts = [points.positive, points.negative].map((node) => judgePoint(facts, node, wanted));
    const needed = shortPower(openCircuitVoltage, wanted.resistance).max ?? 0;
    return listOutcome(circuit, {
      wrong: parts.flatMap(({ wrong }) => wrong),
      missing: parts.flatMap(({ missing }) => missing),
      elements: parts.flatMap(({ elements }) => elements),
      evidence: {
        ...closest(parts.flatMap(({ measured }) => measured)),
        path: parts.flatMap(({ elements }) => elements),
        highest: volts,
        wanted: wanted.resistance,
        shortPower: needed,
      },
      values: {
        wanted: formatQuantity(wanted.resistance, 'Ω'),
        power: formatQuantity(needed, 'W'),
        preferred: formatQuantity(roundUp(needed / (1 - MARGIN), 2), 'W'),
      },
      remedy: 'fit',
    });
  },
};

function judgePoint({ circuit, openCircuitVoltage }: Facts, node: string, wanted: WantedProtection) {
  const protection = pointProtection(circuit, node);
  if (protection === undefined) {
    return {
      wrong: [{ elements: [], text: `the point ${node} has no resistor of its own` }],
      missing: [],
      elements: [],
      // As good as no resistance at all.
      measured: [{ actual: 0, limit: wanted.resistance, side: 'above' as const, unit: 'Ω' }],
    };
  }
  const { resistance, parts } = protection;
  const elements = parts.map(({ resistor }) => resistor.id);
  const wrong: Wrong[] = [];
  const measured: Measured[] = [];
  if (resistance < wanted.lowest || resistance > wanted.highest) {
    measured.push({
      actual: resistance,
      limit: wanted.resistance,
      side: resistance < wanted.resistance ? 'above' : 'below',
      unit: 'Ω',
    });
    const texts = formatAgainst(resistance, wanted.resistance, 'Ω');
    const verb = elements.length === 1 ? 'is' : 'are together';
    wrong.push({ elements, text: `${elements.join(', ')} ${verb} ${texts.value}, and ${texts.limit} is wanted` });
  }
  const missing: string[] = [];
  for (const { resistor, share } of parts) {
    const stands = judgePower(resistor, circuit, shortPower(openCircuitVoltage, resistor.resistance.min, share), null);
    const limit = stands.status === 'violated' ? stands.atMost : stands.atLeast;
    measured.push({ actual: stands.power, limit, side: 'below', unit: 'W' });
    if (stands.status === 'violated') {
      const texts = formatAgainst(stands.power, stands.atMost, 'W');
      const text = `${resistor.id} takes ${texts.value} in a short of the points and stands ${texts.limit}`;
      wrong.push({ elements: [resistor.id], text });
    }
    if (stands.status === 'undetermined') missing.push(...stands.missing);
  }
  return { wrong, missing, elements, measured };
}

/** (U/2)²/R in each of two equal resistors with the points shorted; of one in several the share of its voltage. */
function shortPower(volts: Figure, ohms: number, share = 1): Figure {
  const power = (value: number | null) => (value === null || ohms <= 0 ? null : ((share * value) / 2) ** 2 / ohms);
  return {
    ...volts,
    nominal: power(volts.nominal),
    min: power(volts.min),
    max: power(volts.max),
    stated: { min: power(volts.stated.min), max: power(volts.stated.max) },
  };
}
