import type { ResolvedCircuit } from '../../circuit/model.js';
import type { PoleExit, Topology } from '../../facts/facts.js';
import { fieldNames } from '../field-names.js';
import type { Outcome, Rule } from '../rule.js';
import { senseNodes } from '../sense-nodes.js';

export const rule: Rule = {
  meta: {
    id: 'container-indicator',
    title: 'The container’s indicator sees the vehicle side of its relays',
    rationale:
      'Whoever unplugs a container looks at its indicator. Sensed on the cells’ side it is always lit; sensed beyond a plug it is dark although a welded relay keeps the plug live.',
    parameters: [],
    messages: {
      met: 'The indicator of each container ({containers}) senses the vehicle side of its isolation relays ({pairs}).',
      violated:
        'A container’s indicator senses {pairs}, which is not the vehicle side of the isolation relays of one container.',
      undetermined:
        'Whether the indicator of container {containers} senses the vehicle side of its isolation relays cannot be told without {fields}.',
      absent:
        'By its description no container has an indicator that senses the vehicle side of its isolation relays (containers: {containers}).',
      partly: 'A container has no isolation relay in each pole, so its vehicle side cannot be told.',
      none: 'No container has an isolation relay in both poles, so there is no vehicle side to sense.',
    },
    remedies: { sense: 'Sense between the isolation relays’ vehicle-side terminals, inside the container.' },
    inspect:
      'With the relays open the indicator is dark, with them closed it is lit, the plug pulled or not. Look at each container’s own.',
  },
  check({ circuit, exits, topology }): Outcome {
    const sides = topology.containers.map((container) => ({
      container,
      positive: vehicleSide(exits, topology, container, 'positive'),
      negative: vehicleSide(exits, topology, container, 'negative'),
    }));
    const complete = sides.filter(({ positive, negative }) => positive.length > 0 && negative.length > 0);
    if (complete.length === 0) return { status: 'not-applicable', message: 'none', causedBy: ['isolation-both-poles'] };
    if (statesNone(circuit)) {
      const values = { containers: complete.map(({ container }) => container).join(', ') };
      return { status: 'violated', message: 'absent', values, evidence: { vehicleSides: complete }, remedy: 'sense' };
    }
    const { pairs, missing } = statedPairs(circuit);
    const seen = (nodes: readonly string[], node: string) => nodes.some((side) => senseNodes(circuit, side).has(node));
    const sees = ([a, b]: Pair, { positive, negative }: Sides) =>
      (seen(positive, a) && seen(negative, b)) || (seen(positive, b) && seen(negative, a));
    const wrong = pairs.filter((pair) => !complete.some((each) => sees(pair, each)));
    const found = complete.filter((each) => pairs.some((pair) => sees(pair, each)));
    const evidence = { senses: pairs, vehicleSides: complete };
    const shown = wrong.length > 0 ? wrong : pairs;
    const values = {
      pairs: shown.map((pair) => pair.join(', ')).join(' and '),
      containers: found.map(({ container }) => container).join(', '),
    };
    if (wrong.length > 0) {
      // It may sense the container of which no vehicle side can be told.
      return complete.length < sides.length
        ? { status: 'not-applicable', message: 'partly', evidence, causedBy: ['isolation-both-poles'] }
        : { status: 'violated', message: 'violated', values, evidence, remedy: 'sense' };
    }
    const unseen = complete.filter((each) => !found.includes(each)).map(({ container }) => container);
    if (unseen.length === 0) return { status: 'met', message: 'met', values, evidence };
    const several = complete.length > 1;
    const fields =
      missing.length > 0
        ? missing
        : [`${circuit.pointer}/${several ? 'containerIndicators' : 'containerIndicator/senses'}`];
    return {
      status: 'undetermined',
      message: 'undetermined',
      values: { containers: unseen.join(', '), fields: fieldNames(circuit, fields) },
      evidence,
      missing: fields,
    };
  },
};

type Pair = readonly [string, string];

interface Sides {
  readonly positive: readonly string[];
  readonly negative: readonly string[];
}

/** An empty list is a statement: there is no such indicator. A field left out says nothing. */
function statesNone({ containerIndicator, containerIndicators }: ResolvedCircuit): boolean {
  return containerIndicator === undefined && containerIndicators?.length === 0;
}

/** What every container's indicator senses, as far as stated, and pointers of those of which only that they are there is. */
function statedPairs({ containerIndicator, containerIndicators = [], pointer }: ResolvedCircuit) {
  const all = [
    ...(containerIndicator === undefined ? [] : [{ ...containerIndicator, place: 'containerIndicator' }]),
    ...containerIndicators.map((each, index) => ({ ...each, place: `containerIndicators/${String(index)}` })),
  ];
  return {
    pairs: all.flatMap(({ senses }): Pair[] => (senses === undefined ? [] : [senses])),
    missing: all.flatMap(({ senses, place }) => (senses === undefined ? [`${pointer}/${place}/senses`] : [])),
  };
}

/** The nodes just behind the isolation relays that cut one pole of a container; of several in a row behind the last. */
function vehicleSide(
  exits: readonly PoleExit[],
  topology: Topology,
  container: string,
  polarity: 'positive' | 'negative',
): string[] {
  const behind = exits
    .filter(({ pole }) => pole.container === container && pole.polarity === polarity)
    .flatMap(({ path }) => {
      const relay = path.elements.findLastIndex((id) => topology.isolationRelays.includes(id));
      return relay < 0 ? [] : (path.nodes[relay + 1] ?? []);
    });
  return [...new Set(behind)];
}
