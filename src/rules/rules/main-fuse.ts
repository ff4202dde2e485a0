import type { Contact, Fuse } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import { elementsOf } from '../elements-of.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { listOutcome, type Wrong } from '../list-outcome.js';
import { mainFuses } from '../main-fuses.js';
import { closest, type Measured } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'main-fuse',
    title: 'A fuse in each container that blows before its relays are asked too much',
    rationale:
      'An isolation relay that opens onto more current than it can break burns and stays closed. The fuse must take over below that current.',
    parameters: ['fuseBelowBreakingCurrent'],
    messages: {
      met: 'Each container has its fuse ({elements}).',
      violated: 'The fuse of a container is missing or too large: {problems}.',
      undetermined: 'Whether the fuses suit the isolation relays cannot be told without {fields}.',
    },
    remedies: {
      fit: 'Fit a fuse in each container, rated above the operating current and below what its isolation relays can break.',
      smaller:
        'Fit a fuse in each container, rated above the operating current and below what its isolation relays can break ({bound}); {preferred} or less leaves a margin of 20 %.',
    },
    inspect: 'Read the rating on the main fuse and the breaking current at this voltage in the relays’ data sheet.',
  },
  check(facts, ruleset): Outcome {
    const { circuit, topology } = facts;
    const compare = ruleset.parameters.fuseBelowBreakingCurrent.value;
    const parts = topology.containers.map((container) => judgeContainer(facts, container, compare));
    const fuses = parts.flatMap((part) => part.fuses);
    const bound = Math.min(...parts.flatMap(({ breaking }) => breaking));
    return listOutcome(circuit, {
      wrong: parts.flatMap(({ wrong }) => wrong),
      missing: parts.flatMap(({ missing }) => missing),
      elements: fuses.map(({ id }) => id),
      evidence: {
        // The numbers of one container say nothing of another that has no fuse.
        ...(parts.some((part) => part.fuses.length === 0) ? {} : closest(parts.flatMap(({ measured }) => measured))),
        path: fuses.map(({ id }) => id),
        fuses: fuses.map(({ id, container, ratedCurrent }) => ({
          fuse: id,
          container,
          ratedCurrent: ratedCurrent ?? null,
        })),
      },
      values: {
        bound: formatQuantity(bound, 'A'),
        preferred: formatQuantity(bound * (1 - MARGIN), 'A', 3),
      },
      remedy: Number.isFinite(bound) ? 'smaller' : 'fit',
    });
  },
};

interface Part {
  readonly fuses: readonly Fuse[];
  readonly wrong: readonly Wrong[];
  readonly missing: readonly string[];
  readonly measured: readonly Measured[];
  /** A, what the container's isolation relays can break, as far as stated. */
  readonly breaking: readonly number[];
}

function judgeContainer(facts: Facts, container: string, compare: boolean): Part {
  const fuses = mainFuses(facts, container);
  const relays = elementsOf(facts.circuit, facts.topology.isolationRelays, 'contact').filter(
    (relay) => relay.zone === 'container' && relay.container === container,
  );
  const breaking = compare ? relays.flatMap(({ ratings }) => ratings?.breakingCurrent ?? []) : [];
  const common = { fuses, breaking, missing: [], measured: [] };
  if (fuses.length === 0) return { ...common, wrong: [{ elements: [], text: `the container ${container} has none` }] };
  if (!compare) return { ...common, wrong: [] };
  const pairs = fuses.flatMap((fuse) => relays.map((relay) => [fuse, relay] as const));
  return {
    ...common,
    wrong: pairs.flatMap(([fuse, relay]) => tooLarge(fuse, relay)),
    missing: [
      ...fuses.filter(({ ratedCurrent }) => ratedCurrent === undefined).map(({ pointer }) => `${pointer}/ratedCurrent`),
      ...relays
        .filter(({ ratings }) => ratings?.breakingCurrent === undefined)
        .map(({ pointer }) => `${pointer}/ratings/breakingCurrent`),
    ],
    measured: fuses.flatMap(({ ratedCurrent: actual }) =>
      actual === undefined ? [] : breaking.map((limit) => ({ actual, limit, side: 'below' as const, unit: 'A' })),
    ),
  };
}

function tooLarge({ id, ratedCurrent }: Fuse, relay: Contact): Wrong[] {
  const breaking = relay.ratings?.breakingCurrent;
  if (ratedCurrent === undefined || breaking === undefined || ratedCurrent < breaking) return [];
  const texts = formatAgainst(ratedCurrent, breaking, 'A');
  return [{ elements: [id, relay.id], text: `${id} is rated ${texts.value}, and ${relay.id} breaks ${texts.limit}` }];
}
