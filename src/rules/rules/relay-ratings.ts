import type { Contact, ContactRatings } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import type { Figure } from '../../facts/figure.js';
import { closingCurrent, sourceUnstated } from '../../limits/closing-current.js';
import { levelUnstated } from '../../limits/level-unstated.js';
import { elementsOf } from '../elements-of.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity, type Unit } from '../format-quantity.js';
import { type Bound, judgeFigure } from '../judge-figure.js';
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
      replace: 'Fit relays rated in DC for at least: {needed} (a margin of 20 %).',
      closeLater:
        'Let the last relay close at a higher threshold, which lowers the current at closing. Or fit relays rated in DC for at least: {needed} (a margin of 20 %).',
      raiseResistance:
        'Use a larger pre-charge resistance, which lowers the current of the rise. Or fit relays rated in DC for at least: {needed} (a margin of 20 %).',
      smallerFuse:
        'Fit a main fuse of a lower rating, above the operating current, which lowers what the relays have to carry. Or fit relays rated in DC for at least: {needed} (a margin of 20 %).',
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
    const failing = judged.filter(({ wrong }) => wrong.length > 0);
    const remedies = new Set(failing.map(({ remedy }) => remedy));
    const [remedy = 'replace'] = remedies.size === 1 ? remedies : [];
    const outcome = listOutcome(circuit, {
      wrong: failing.flatMap(({ wrong }) => wrong),
      missing: judged.flatMap(({ missing }) => missing),
      elements: [...isolation, ...precharge].map(({ id }) => id),
      evidence: {
        ...closest(judged.flatMap(({ measured }) => measured)),
        demands: judged.map(({ evidence }) => evidence),
      },
      values: { needed: judged.flatMap(({ needed }) => needed).join('; ') },
      remedy,
    });
    const causes = failing.flatMap(({ cause }) => cause ?? []);
    // A demand of its own makes it a finding of its own.
    return failing.length > 0 && causes.length === failing.length
      ? { ...outcome, causedBy: [...new Set(causes)] }
      : outcome;
  },
};

type Remedy = 'replace' | 'closeLater' | 'raiseResistance' | 'smallerFuse';

interface Demand {
  readonly relay: Contact;
  readonly rating: keyof ContactRatings;
  readonly verb: string;
  readonly figure: Figure;
  /** What lowers the demand; a relay of another rating where nothing does. */
  readonly remedy?: Remedy;
  /** The rule whose violation may be all that asks so much, and what is asked once that is cured. */
  readonly unless?: { readonly cause: string; readonly figure: Figure };
  /** Pointers of what is not stated and could only lower the figure. */
  readonly lowering?: readonly string[];
}

function* demandsOnIsolation(facts: Facts, relay: Contact): Generator<Demand> {
  const { topology, rise, openCircuitVoltage, circuit } = facts;
  yield { relay, rating: 'dcVoltage', verb: 'switches', figure: openCircuitVoltage };
  yield* topology.bridgedRelays.includes(relay.id)
    ? demandsOnLast(facts, relay)
    : [{ relay, rating: 'makingCurrent', verb: 'makes', figure: rise.peakCurrent, remedy: 'raiseResistance' } as const];
  const fuses = mainFuses(facts, relay.container);
  const rated = fuses.flatMap(({ ratedCurrent }) => ratedCurrent ?? []);
  const operating = fixed(circuit.operatingCurrent, `${circuit.pointer}/operatingCurrent`);
  yield { relay, rating: 'breakingCurrent', verb: 'is asked to break', figure: operating };
  const carried = Math.max(circuit.operatingCurrent ?? 0, ...rated);
  const { breakingCurrent = Infinity } = relay.ratings ?? {};
  yield {
    relay,
    rating: 'carryingCurrent',
    verb: 'carries up to',
    figure: carried > 0 ? fixed(carried, '') : operating,
    remedy: carried > (circuit.operatingCurrent ?? 0) ? 'smallerFuse' : 'replace',
    // A fuse that its relays cannot break for is too large by itself.
    ...(carried >= breakingCurrent ? { unless: { cause: 'main-fuse', figure: operating } } : {}),
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

/** The peak at closing, inductance left out: an upper bound. */
function* demandsOnLast(facts: Facts, relay: Contact): Generator<Demand> {
  const { rise } = facts;
  const makes = { relay, rating: 'makingCurrent', verb: 'makes' } as const;
  const figure = closingCurrent(facts);
  // Where the threshold is never reached the last relay never closes.
  if (figure.reason === 'never') return;
  yield {
    ...makes,
    figure,
    remedy: 'closeLater',
    unless: { cause: 'precharge-order', figure: rise.currentAtSecondClosure },
    lowering: sourceUnstated(facts),
  };
  for (const pointer of levelUnstated(facts)) yield { ...makes, figure: fixed(undefined, pointer) };
}

function* demandsOnPrecharge({ rise, openCircuitVoltage }: Facts, relay: Contact): Generator<Demand> {
  const remedy = 'raiseResistance';
  yield { relay, rating: 'dcVoltage', verb: 'switches', figure: openCircuitVoltage };
  yield { relay, rating: 'makingCurrent', verb: 'makes', figure: rise.peakCurrent, remedy };
  // A shorted link holds the current of the first instant, so it is also the most to break and to carry.
  yield { relay, rating: 'breakingCurrent', verb: 'is asked to break', figure: rise.peakCurrent, remedy };
  yield { relay, rating: 'carryingCurrent', verb: 'carries up to', figure: rise.peakCurrent, remedy };
}

interface JudgedDemand {
  readonly wrong: readonly Wrong[];
  readonly missing: readonly string[];
  readonly measured: readonly Measured[];
  /** What a relay in its place must be rated. */
  readonly needed: readonly string[];
  readonly remedy: Remedy;
  readonly cause?: string;
  readonly evidence: Readonly<Record<string, unknown>>;
}

const RATINGS: Readonly<Record<keyof ContactRatings, string>> = {
  dcVoltage: 'voltage',
  makingCurrent: 'making current',
  breakingCurrent: 'breaking current',
  carryingCurrent: 'carrying current',
};

function judgeDemand({ relay, rating, verb, figure, remedy = 'replace', unless, lowering = [] }: Demand): JudgedDemand {
  const rated = relay.ratings?.[rating];
  const evidence = { relay: relay.id, rating, rated: rated ?? null, demand: figure.max };
  const common = { wrong: [], measured: [], needed: [], remedy, evidence };
  if (rated === undefined) return { ...common, missing: [`${relay.pointer}/ratings/${rating}`] };
  const bound: Bound = { side: 'below', limit: rated, strict: false };
  const { status, missing, worst, notComputable, search } = judgeFigure(figure, bound);
  if (notComputable) return { ...common, missing };
  const unit: Unit = rating === 'dcVoltage' ? 'V' : 'A';
  const measured: Measured[] = [{ actual: worst, limit: rated, side: 'below', unit, search }];
  if (status !== 'violated') return { ...common, missing, measured };
  if (lowering.length > 0) return { ...common, missing: lowering, measured };
  const texts = formatAgainst(worst, rated, unit);
  const wanted = formatQuantity(roundUp(worst / (1 - MARGIN), 3), unit);
  return {
    ...common,
    wrong: [{ elements: [relay.id], text: `${relay.id} ${verb} ${texts.value} and is rated ${texts.limit}` }],
    missing: [],
    measured,
    needed: [`${relay.id} ${RATINGS[rating]} ${wanted}`],
    ...(unless !== undefined && judgeFigure(unless.figure, bound).status === 'met' ? { cause: unless.cause } : {}),
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
