import type { Resistor } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import { permanentAllowance } from '../../limits/ratings/permanent-allowance.js';
import { elementsOf } from '../elements-of.js';
import { figureEvidence } from '../figure-evidence.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { judgeFigure } from '../judge-figure.js';
import { judgePower } from '../judge-power.js';
import { listOutcome, type Wrong } from '../list-outcome.js';
import { closest, type Measured } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'precharge-resistor-rating',
    title: 'The pre-charge resistor stands a rise, and a rise into a short',
    rationale:
      'The resistor takes the whole voltage at the first instant and as much heat as the capacitors store, in a second or two. If the link is shorted it takes the whole voltage until the timeout ends it.',
    parameters: [],
    messages: {
      met: 'The pre-charge resistor ({elements}) stands a rise ({peak} at the start) and a rise into a short until the timeout.',
      violated: 'The pre-charge resistor is not rated for its work: {problems}.',
      undetermined: 'Whether the pre-charge resistor stands its work cannot be told without {fields}.',
      none: 'No resistor carries the rise.',
    },
    remedies: {
      replace:
        'Fit a resistor that stands at least {needed} for {duration}, by its derated power times its overload factor and by its heat where its thermal data are stated; {preferred} leaves a margin of 20 %. Or shorten the timeout.',
    },
    inspect:
      'Read the type of the pre-charge resistor, its rating and overload rating in the data sheet, and how it is mounted.',
  },
  check(facts): Outcome {
    const { circuit, rise } = facts;
    const [resistor] = elementsOf(circuit, rise.resistor === undefined ? [] : [rise.resistor], 'resistor');
    if (resistor === undefined) {
      return { status: 'not-applicable', message: 'none', causedBy: ['precharge-reaches-threshold'] };
    }
    const parts = [instant(facts, resistor), temperature(facts, resistor), intoShort(facts, resistor)];
    const peak = rise.resistorPeakPower.max ?? Infinity;
    return listOutcome(circuit, {
      wrong: parts.flatMap(({ wrong }) => wrong),
      missing: parts.flatMap(({ missing }) => missing),
      elements: [resistor.id],
      evidence: {
        ...closest(parts.flatMap(({ measured }) => measured)),
        path: rise.resistor === undefined ? [] : [rise.resistor],
        peakPower: figureEvidence(rise.resistorPeakPower),
        energy: figureEvidence(rise.resistorEnergy),
        peakTemperature: figureEvidence(rise.resistorPeakTemperature),
      },
      values: {
        peak: formatQuantity(peak, 'W'),
        needed: formatQuantity(peak, 'W'),
        duration: shortDuration(facts),
        preferred: formatQuantity(roundUp(peak / (1 - MARGIN), 3), 'W'),
      },
      remedy: 'replace',
    });
  },
};

/** How long a rise into a short lasts, all attempts together. */
function shortDuration({ circuit }: Facts): string {
  const { timeout, attempts = 1 } = circuit.control.precharge ?? {};
  return timeout === undefined ? 'a rise' : formatQuantity(timeout * attempts, 's');
}

interface Part {
  readonly measured: readonly Measured[];
  readonly wrong: readonly Wrong[];
  readonly missing: readonly string[];
}

const FINE: Part = { wrong: [], missing: [], measured: [] };

/** Power at any instant, which bounds the heat in any time as well: at most factor × derated power. */
function instant({ circuit, rise }: Facts, resistor: Resistor): Part {
  const available = permanentAllowance(resistor, circuit);
  const overload = resistor.ratings?.overload;
  const factor = Math.max(1, overload?.factor ?? 1);
  const sure = judgeFigure(rise.resistorPeakPower, { side: 'below', limit: available.atLeast * factor, strict: false });
  if (sure.notComputable) return { ...FINE, missing: sure.missing };
  const measured = (limit: number): Measured[] => [
    { actual: sure.worst, limit, side: 'below', unit: 'W', search: sure.search },
  ];
  if (sure.status === 'met') return { ...FINE, measured: measured(available.atLeast * factor) };
  const most = overload === undefined ? Infinity : available.atMost * factor;
  const hopeless = judgeFigure(rise.resistorPeakPower, { side: 'below', limit: most, strict: false });
  if (hopeless.status === 'violated') {
    const texts = formatAgainst(sure.worst, most, 'W');
    return {
      wrong: [
        { elements: [resistor.id], text: `${resistor.id} takes ${texts.value} at the start and stands ${texts.limit}` },
      ],
      missing: [],
      measured: measured(most),
    };
  }
  const overloadMissing = overload === undefined ? [`${resistor.pointer}/ratings/overload`] : [];
  const missing = [...available.missing, ...overloadMissing, ...sure.missing, ...hopeless.missing];
  return { wrong: [], missing, measured: measured(available.atLeast * factor) };
}

/** In a rise; nothing to judge where no highest temperature is stated and the power rating says enough. */
function temperature({ rise }: Facts, resistor: Resistor): Part {
  const highest = resistor.thermal?.maxTemperature;
  if (highest === undefined) return FINE;
  const { status, missing, worst, notComputable, search } = judgeFigure(rise.resistorPeakTemperature, {
    side: 'below',
    limit: highest,
    strict: false,
  });
  if (notComputable) return FINE;
  const measured: Measured[] = [{ actual: worst, limit: highest, side: 'below', unit: '°C', search }];
  if (status !== 'violated') return { wrong: [], missing, measured };
  const texts = formatAgainst(worst, highest, '°C');
  return {
    wrong: [
      { elements: [resistor.id], text: `${resistor.id} reaches ${texts.value} in a rise and stands ${texts.limit}` },
    ],
    missing: [],
    measured,
  };
}

/** A shorted link keeps the power of the first instant until the timeout, at each attempt; between them it cools as stated. */
function intoShort({ circuit, rise }: Facts, resistor: Resistor): Part {
  const { timeout, attempts, method, retryInterval } = circuit.control.precharge ?? {};
  const base = `${circuit.pointer}/control/precharge`;
  // A timer closes the last relay onto the short: the resistor is then the least of it.
  if (method === 'timer') return FINE;
  if (timeout === undefined) return { ...FINE, missing: [`${base}/timeout`] };
  const repeats = { count: attempts ?? 1, interval: retryInterval ?? 0 };
  const all = judgePower(resistor, circuit, rise.resistorPeakPower, timeout, repeats);
  const measured = (limit: number): Measured[] => [
    { actual: all.power, limit, side: 'below', unit: 'W', search: all.search },
  ];
  if (all.status === 'met') {
    const missing = attempts === undefined ? [`${base}/attempts`] : [];
    return { wrong: [], missing, measured: measured(all.atLeast) };
  }
  const one = judgePower(resistor, circuit, rise.resistorPeakPower, timeout);
  if (one.status === 'violated') {
    const most = one.atMost;
    const texts = formatAgainst(all.power, most, 'W');
    const text = `${resistor.id} takes ${texts.value} into a short for ${formatQuantity(timeout, 's')} and stands ${texts.limit} for that long`;
    return { wrong: [{ elements: [resistor.id], text }], missing: [], measured: measured(most) };
  }
  if (all.status === 'violated') {
    if (retryInterval === undefined) {
      return { wrong: [], missing: [`${base}/retryInterval`], measured: measured(all.atMost) };
    }
    const often = `every ${formatQuantity(Math.max(retryInterval, timeout), 's')}`;
    const text = `${resistor.id} does not stand ${attempts ?? 1} attempts into a short of ${formatQuantity(timeout, 's')} each, one ${often}`;
    return { wrong: [{ elements: [resistor.id], text }], missing: [], measured: measured(all.atMost) };
  }
  return { wrong: [], missing: all.missing, measured: measured(all.atLeast) };
}
