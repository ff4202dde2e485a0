import type { Contact, ContactRatings } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import type { Figure } from '../../facts/figure.js';
import { elementsOf } from '../elements-of.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity, type Unit } from '../format-quantity.js';
import { judgeFigure } from '../judge-figure.js';
import { listOutcome, type Wrong } from '../list-outcome.js';
import { mainFuses } from '../main-fuses.js';
import { closest, type Measured } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'relay-ratings',
    title: 'The relays are rated for what they switch',
    rationale:
      'Direct current does not go out by itself. A relay that makes or breaks more than it is rated for welds or burns, and one that has welded no longer isolates.',
    parameters: [],
    messages: {
      met: 'The relays ({elements}) are rated for the voltage and the currents that they switch.',
      violated: 'A relay is asked more than it is rated for: {problems}.',
      undetermined: 'Whether the relays are rated for what they switch cannot be told without {fields}.',
      none: 'There is neither an isolation relay nor a pre-charge relay to judge.',
    },
    remedies: {
      replace:
        'Fit relays rated in DC for at least: {needed} (a margin of 20 %). A larger pre-charge resistance or a higher threshold lowers the current at closing.',
    },
    inspect: 'Read the relays’ type and look up making, breaking and carrying current in DC at this voltage.',
  },
  check(facts): Outcome {
    const { circuit, topology } = facts;
    const isolation = elementsOf(circuit, topology.isolationRelays, 'contact');
    const precharge = elementsOf(circuit, topology.prechargeRelays, 'contact');
    const judged = [
      ...isolation.flatMap((relay) => [...demandsOnIsolation(facts, relay)]),
      ...precharge.flatMap((relay) => [...demandsOnPrecharge(facts, relay)]),
    ].map(judgeDemand);
    if (judged.length === 0) return { status: 'not-applicable', message: 'none' };
    return listOutcome(circuit, {
      wrong: judged.flatMap(({ wrong }) => wrong),
      missing: judged.flatMap(({ missing }) => missing),
      elements: [...isolation, ...precharge].map(({ id }) => id),
      evidence: {
        ...closest(judged.flatMap(({ measured }) => measured)),
        demands: judged.map(({ evidence }) => evidence),
      },
      values: { needed: judged.flatMap(({ needed }) => needed).join('; ') },
      remedy: 'replace',
    });
  },
};

interface Demand {
  readonly relay: Contact;
  readonly rating: keyof ContactRatings;
  readonly verb: string;
  readonly figure: Figure;
}

function* demandsOnIsolation(facts: Facts, relay: Contact): Generator<Demand> {
  const { topology, rise, openCircuitVoltage, circuit, sequence, lastClosure } = facts;
  yield { relay, rating: 'dcVoltage', verb: 'switches', figure: openCircuitVoltage };
  // The peak at closing, inductance left out: an upper bound.
  const last = topology.bridgedRelays.includes(relay.id);
  // In an order of the team's own the relay closes where that order has it close.
  const closing =
    sequence.source === 'stated' && lastClosure !== undefined ? lastClosure.current : rise.currentAtSecondClosure;
  const making = last ? closing : rise.peakCurrent;
  // Where the threshold is never reached the last relay never closes.
  if (making.reason !== 'never') {
    yield { relay, rating: 'makingCurrent', verb: 'makes', figure: making };
    for (const pointer of last ? levelUnstated(facts) : [])
      yield { relay, rating: 'makingCurrent', verb: 'makes', figure: fixed(undefined, pointer) };
  }
  const fuses = mainFuses(facts, relay.container);
  const rated = fuses.flatMap(({ ratedCurrent }) => ratedCurrent ?? []);
  const operating = fixed(circuit.operatingCurrent, `${circuit.pointer}/operatingCurrent`);
  yield { relay, rating: 'breakingCurrent', verb: 'is asked to break', figure: operating };
  const carried = Math.max(circuit.operatingCurrent ?? 0, ...rated);
  yield {
    relay,
    rating: 'carryingCurrent',
    verb: 'carries up to',
    figure: carried > 0 ? fixed(carried, '') : operating,
  };
  // What a fuse of unknown rating lets through is not known.
  for (const { pointer, ratedCurrent } of fuses) {
    if (ratedCurrent !== undefined) continue;
    yield {
      relay,
      rating: 'carryingCurrent',
      verb: 'carries up to',
      figure: fixed(undefined, `${pointer}/ratedCurrent`),
    };
  }
}

/** Pointers of what tells how far the link has risen when the last relay closes, as far as the order waits for a measured level. */
function levelUnstated({ circuit, sequence }: Facts): readonly string[] {
  if (!sequence.steps.some(({ when }) => when !== undefined && !when.falling)) return [];
  const { threshold, comparisonError } = circuit.control.precharge ?? {};
  const base = `${circuit.pointer}/control/precharge`;
  return [
    // A stated order names its levels itself.
    ...(threshold === undefined && sequence.source === 'default' ? [`${base}/threshold`] : []),
    ...(comparisonError === undefined ? [`${base}/comparisonError`] : []),
  ];
}

function* demandsOnPrecharge({ rise, openCircuitVoltage }: Facts, relay: Contact): Generator<Demand> {
  yield { relay, rating: 'dcVoltage', verb: 'switches', figure: openCircuitVoltage };
  yield { relay, rating: 'makingCurrent', verb: 'makes', figure: rise.peakCurrent };
  // A shorted link holds the current of the first instant, so it is also the most to break and to carry.
  yield { relay, rating: 'breakingCurrent', verb: 'is asked to break', figure: rise.peakCurrent };
  yield { relay, rating: 'carryingCurrent', verb: 'carries up to', figure: rise.peakCurrent };
}

interface JudgedDemand {
  readonly wrong: readonly Wrong[];
  readonly missing: readonly string[];
  readonly measured: readonly Measured[];
  /** What a relay in its place must be rated. */
  readonly needed: readonly string[];
  readonly evidence: Readonly<Record<string, unknown>>;
}

const RATINGS: Readonly<Record<keyof ContactRatings, string>> = {
  dcVoltage: 'voltage',
  makingCurrent: 'making current',
  breakingCurrent: 'breaking current',
  carryingCurrent: 'carrying current',
};

function judgeDemand({ relay, rating, verb, figure }: Demand): JudgedDemand {
  const rated = relay.ratings?.[rating];
  const evidence = { relay: relay.id, rating, rated: rated ?? null, demand: figure.max };
  const common = { wrong: [], measured: [], needed: [], evidence };
  if (rated === undefined) return { ...common, missing: [`${relay.pointer}/ratings/${rating}`] };
  const { status, missing, worst, notComputable } = judgeFigure(figure, { side: 'below', limit: rated, strict: false });
  if (notComputable) return { ...common, missing };
  const unit: Unit = rating === 'dcVoltage' ? 'V' : 'A';
  const measured: Measured[] = [{ actual: worst, limit: rated, side: 'below', unit }];
  if (status !== 'violated') return { ...common, missing, measured };
  const texts = formatAgainst(worst, rated, unit);
  const wanted = formatQuantity(roundUp(worst / (1 - MARGIN), 3), unit);
  return {
    wrong: [{ elements: [relay.id], text: `${relay.id} ${verb} ${texts.value} and is rated ${texts.limit}` }],
    missing: [],
    measured,
    needed: [`${relay.id} ${RATINGS[rating]} ${wanted}`],
    evidence,
  };
}

/** A stated number as a figure; where it is not stated, one that cannot be computed without it. */
function fixed(value: number | undefined, pointer: string): Figure {
  const number = value ?? null;
  const figure: Figure = {
    nominal: number,
    min: number,
    max: number,
    stated: { min: number, max: number },
    bare: [],
    bound: 'proved',
    at: { min: {}, max: {} },
  };
  return value === undefined ? { ...figure, reason: 'not-stated', missing: [pointer] } : figure;
}
