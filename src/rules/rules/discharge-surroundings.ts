import type { Resistor } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import { ambientOf } from '../../limits/ratings/ambient-of.js';
import { temperatureRise } from '../../limits/ratings/temperature-rise.js';
import { elementsOf } from '../elements-of.js';
import { formatAgainst } from '../format-against.js';
import { causedByRating } from '../judge-discharge-rating.js';
import { listOutcome } from '../list-outcome.js';
import { closest } from '../measured-against.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'discharge-surroundings',
    title: 'The discharge resistor does not scorch what is beside it',
    rationale:
      'With a welded relay the discharge resistor stays at full heat. Cable ties, laminate and insulation nearby have limits far below the resistor’s own.',
    parameters: ['dischargeRatingTime'],
    messages: {
      met: 'The surface of the discharge resistor ({elements}) stays below what its surroundings stand.',
      violated: 'The surface of the discharge resistor gets hotter than its surroundings stand: {problems}.',
      undetermined:
        'Whether the surroundings stand the heat of the discharge resistor cannot be told without {fields}.',
      none: 'There is no discharge resistor to judge.',
    },
    remedies: {
      distance:
        'Give it distance, a shield or a better heat sink, or replace what is beside it by something that stands the heat.',
    },
    inspect: 'Look at what touches the discharge resistor or its heat sink, and for marks of heat.',
  },
  check(facts, ruleset): Outcome {
    const { circuit, topology } = facts;
    const resistors = elementsOf(circuit, topology.dischargeResistors, 'resistor');
    if (resistors.length === 0) return { status: 'not-applicable', message: 'none', causedBy: ['discharge-time'] };
    const time = ruleset.conditions.dischargeRatingTime;
    const judged = resistors.map((resistor) => judgeSurface(facts, resistor, time ?? Infinity));
    const outcome = listOutcome(circuit, {
      wrong: judged.flatMap(({ wrong }) => wrong),
      missing: judged.flatMap(({ missing }) => missing),
      elements: resistors.map(({ id }) => id),
      evidence: {
        ...closest(
          judged.flatMap(({ surface, limit }) =>
            surface === undefined || limit === undefined
              ? []
              : [{ actual: surface, limit, side: 'below' as const, unit: '°C' }],
          ),
        ),
        surfaces: judged.map(({ surface, limit }, index) => ({
          resistor: resistors[index]?.id,
          surface: surface ?? null,
          limit: limit ?? null,
        })),
      },
      remedy: 'distance',
    });
    // A temperature that was measured is no consequence of what was computed.
    const measured = elementsOf(circuit, outcome.elements ?? [], 'resistor').some(
      ({ surroundings }) => surroundings?.measuredTemperature !== undefined,
    );
    if (outcome.status !== 'violated' || measured) return outcome;
    return { ...outcome, causedBy: causedByRating(facts, outcome.elements ?? [], time) };
  },
};

function judgeSurface(facts: Facts, resistor: Resistor, time: number) {
  const { pointer, surroundings, id } = resistor;
  const limit = surroundings?.limitTemperature;
  const surface = surroundings?.measuredTemperature ?? computedSurface(facts, resistor, time);
  const missing = [
    ...(limit === undefined ? [`${pointer}/surroundings/limitTemperature`] : []),
    ...(surface === undefined ? [`${pointer}/surroundings/measuredTemperature`] : []),
  ];
  if (limit === undefined || surface === undefined || surface <= limit) return { wrong: [], missing, surface, limit };
  const texts = formatAgainst(surface, limit, '°C');
  const text = `${id} reaches ${texts.value} beside something that stands ${texts.limit}`;
  return { wrong: [{ elements: [id], text }], missing, surface, limit };
}

/** The hottest it gets at the highest voltage for the ruleset's time, taken as the temperature of its surface. */
function computedSurface({ circuit, falls }: Facts, resistor: Resistor, time: number): number | undefined {
  const ambient = ambientOf(resistor, circuit);
  const rise = temperatureRise(resistor.thermal, time);
  const powers = falls.flatMap(({ continuousPower }) => continuousPower.get(resistor.id)?.max ?? []);
  if (ambient === undefined || rise === undefined || powers.length === 0 || !Number.isFinite(rise.perWatt))
    return undefined;
  return ambient + Math.max(...powers) * rise.perWatt;
}
