import { isOpen } from '../../facts/figures/is-open.js';
import type { Element, ResolvedCircuit } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import { judgedEnds } from '../../limits/judgement.js';
import { formatAgainst } from '../format-against.js';
import { joinedNodes } from '../joined-nodes.js';
import { formatQuantity } from '../format-quantity.js';
import { listOutcome } from '../list-outcome.js';
import { closest } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'voltage-ratings',
    title: 'The parts are rated for the voltage across them',
    rationale:
      'A fuse arcs on, a plug tracks and a capacitor fails shorted when the voltage across it is above its rating.',
    parameters: [],
    messages: {
      met: 'Every part is rated for the voltage that can stand across it, {volts} at most ({elements}).',
      violated: 'A part is rated below the voltage that can stand across it: {problems}.',
      undetermined: 'Whether every part is rated for the voltage across it cannot be told without {fields}.',
      none: 'There is no part with a voltage rating to judge.',
    },
    remedies: {
      replace:
        'Fit parts rated in DC for more than they can have across them; {preferred} leaves a margin of 20 % anywhere.',
    },
    inspect:
      'Read the DC voltage rating on fuses, plugs, the disconnect and the capacitors; an AC rating does not count.',
  },
  check(facts): Outcome {
    const { circuit, openCircuitVoltage } = facts;
    const volts = openCircuitVoltage.max;
    const rated = circuit.elements.flatMap((element) => ratingOf(facts, element));
    if (rated.length === 0 || volts === null) return { status: 'not-applicable', message: 'none' };
    const wrong = rated.flatMap(({ element, rating, across = volts }) => {
      if (rating === undefined || rating >= across) return [];
      const texts = formatAgainst(across, rating, 'V');
      return [
        { elements: [element.id], text: `${element.id} is rated ${texts.limit} and can have ${texts.value} across it` },
      ];
    });
    const highest = Math.max(volts, ...rated.map(({ across = 0 }) => across));
    const missing = rated.flatMap(({ element, field, rating, open = [] }) =>
      rating === undefined ? [`${element.pointer}/${field}`] : open,
    );
    return listOutcome(circuit, {
      wrong,
      missing,
      elements: rated.map(({ element }) => element.id),
      evidence: {
        ...closest(
          rated.flatMap(({ rating, across = volts, ample = false }) =>
            rating === undefined || ample ? [] : [{ actual: across, limit: rating, side: 'below' as const, unit: 'V' }],
          ),
        ),
        highest: volts,
        ratings: rated.map(({ element, rating }) => ({ element: element.id, rating: rating ?? null })),
      },
      values: {
        volts: formatQuantity(highest, 'V'),
        preferred: formatQuantity(roundUp(highest / (1 - MARGIN), 3), 'V'),
      },
      remedy: 'replace',
    });
  },
};

interface Rated {
  readonly element: Element;
  readonly field: string;
  readonly rating: number | undefined;
  /** V across it at most, where that is not the whole accumulator voltage. */
  readonly across?: number;
  /** True where it is rated for more than anything in the car, and what it has across it is not asked. */
  readonly ample?: boolean;
  /** Fields without which the most that it can have across it cannot be told, by pointer. */
  readonly open?: readonly string[];
}

/**
 * What opens takes the whole voltage; so does a capacitor across the link. Another capacitor takes the most that it gets to in the
 * rise or stands at when the car is switched off; where it is rated for the whole, that is not asked. A resistor's own voltage follows from the power that
 * the facts give for it, √(P·R); of others nothing is known but that it is no more than the whole, so they are left out.
 */
function ratingOf(facts: Facts, element: Element): Rated[] {
  const { circuit, rise, falls } = facts;
  switch (element.kind) {
    case 'fuse':
      return [{ element, field: 'ratedDcVoltage', rating: element.ratedDcVoltage }];
    case 'connector':
    case 'disconnect':
      return [{ element, field: 'ratedVoltage', rating: element.ratedVoltage }];
    case 'capacitor': {
      const rated = { element, field: 'ratedVoltage', rating: element.ratedVoltage };
      const whole = facts.openCircuitVoltage.max ?? Number.POSITIVE_INFINITY;
      if (element.ratedVoltage === undefined) return [rated];
      if (isAcrossLink(circuit, element)) return [turnedHigher(facts, rated)];
      return element.ratedVoltage >= whole
        ? [{ ...rated, ample: true }]
        : [{ ...rated, across: highestOn(facts, element, whole) }];
    }
    case 'resistor': {
      const powers = falls.flatMap(({ continuousPower }) => continuousPower.get(element.id)?.max ?? []);
      const peak = rise.resistor === element.id ? rise.resistorPeakPower : undefined;
      const power = Math.max(0, ...powers, peak?.max ?? 0);
      const open = peak !== undefined && isOpen(peak) ? { open: peak.missing ?? [] } : {};
      // The power is largest at the smallest resistance, so this is the voltage at that corner.
      return power > 0 || 'open' in open
        ? [
            {
              element,
              field: 'ratings/voltage',
              rating: element.ratings?.voltage,
              across: Math.min(facts.openCircuitVoltage.max ?? Infinity, Math.sqrt(power * element.resistance.min)),
              ...open,
            },
          ]
        : [];
    }
    // Contacts have a rule of their own; the rest has no voltage rating.
    case 'accumulator':
    case 'contact':
    case 'load':
    case 'machine':
    case 'meter':
      return [];
  }
}

/** With the machine that feeds the link higher than the accumulators do, while it turns. */
function turnedHigher({ circuit, openCircuitVoltage }: Facts, rated: Rated): Rated {
  const machines = circuit.elements.filter((element) => element.kind === 'machine');
  const highest = Math.max(0, ...machines.map(({ backEmf }) => backEmf.max));
  return highest > (openCircuitVoltage.max ?? 0) ? { ...rated, across: highest } : rated;
}

/** V at most across an element in the rise or at the instant of release; the whole where that cannot be computed. */
function highestOn({ rise, falls }: Facts, { nodes }: Element, whole: number): number {
  const released = falls.find(({ state }) => state.scenario === 'shutdown')?.voltageAfter(nodes, 0);
  const ends = [rise.highestVoltage(nodes), released].map((figure) => figure && judgedEnds(figure).max);
  if (ends.some((end) => end === null || end === undefined)) return whole;
  return Math.min(whole, Math.max(...ends.map(Number)));
}

/** Its ends joined to the link's by conductors, cables and fuses included, but by nothing that a relay can open. */
function isAcrossLink(circuit: ResolvedCircuit, { nodes: [a, b] }: Element): boolean {
  const contacts = circuit.elements.filter(({ kind }) => kind === 'contact').map(({ id }) => id);
  const [one, other] = (circuit.link ?? []).map((node) => joinedNodes(circuit, node, new Set(contacts)));
  if (one === undefined || other === undefined) return false;
  return (one.has(a) && other.has(b)) || (one.has(b) && other.has(a));
}
