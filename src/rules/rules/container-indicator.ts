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
      met: 'The indicator of container {container} senses the vehicle side of its isolation relays ({pair}).',
      violated:
        'The container’s indicator senses {pair}, which is not the vehicle side of the isolation relays of one container.',
      undetermined:
        'Whether the container’s indicator senses the vehicle side of its isolation relays cannot be told without {fields}.',
      partly: 'A container has no isolation relay in each pole, so its vehicle side cannot be told.',
      none: 'No container has an isolation relay in both poles, so there is no vehicle side to sense.',
    },
    remedies: { sense: 'Sense between the isolation relays’ vehicle-side terminals, inside the container.' },
    inspect:
      'With the relays open the indicator is dark, with them closed it is lit, the plug pulled or not. Look at each container’s own.',
  },
  check({ circuit, exits, topology }): Outcome {
    const pair = circuit.containerIndicator?.senses;
    const sides = topology.containers.map((container) => ({
      container,
      positive: vehicleSide(exits, topology, container, 'positive'),
      negative: vehicleSide(exits, topology, container, 'negative'),
    }));
    const complete = sides.filter(({ positive, negative }) => positive.length > 0 && negative.length > 0);
    if (complete.length === 0) return { status: 'not-applicable', message: 'none', causedBy: ['isolation-both-poles'] };
    if (pair === undefined) {
      const missing = [`${circuit.pointer}/containerIndicator/senses`];
      return {
        status: 'undetermined',
        message: 'undetermined',
        values: { fields: fieldNames(circuit, missing) },
        missing,
      };
    }
    const seen = (nodes: readonly string[], node: string) => nodes.some((side) => senseNodes(circuit, side).has(node));
    const found = complete.find(
      ({ positive, negative }) =>
        (seen(positive, pair[0]) && seen(negative, pair[1])) || (seen(positive, pair[1]) && seen(negative, pair[0])),
    );
    const evidence = { senses: pair, vehicleSides: complete };
    const values = { pair: pair.join(', '), container: found?.container ?? '' };
    if (found !== undefined) return { status: 'met', message: 'met', values, evidence };
    // It may sense the container of which no vehicle side can be told.
    if (complete.length < sides.length) {
      return { status: 'not-applicable', message: 'partly', evidence, causedBy: ['isolation-both-poles'] };
    }
    return { status: 'violated', message: 'violated', values, evidence, remedy: 'sense' };
  },
};

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
