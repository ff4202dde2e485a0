import type { ResolvedCircuit } from '../../../src/circuit/model.js';
import type { RuleCases } from '../rule-case.js';
import { soundCircuit } from '../sound-car.js';
import { soundExits, soundFacts } from '../sound-facts.js';

const sensing = (senses: readonly [string, string] | undefined) =>
  soundFacts({ circuit: soundCircuit({}, { containerIndicator: senses === undefined ? {} : { senses } }) });

/** The same relays once more in a second container, whose vehicle side is sp and sn. */
const twoContainers = (indicators: Partial<ResolvedCircuit>) => {
  const second: Readonly<Record<string, string>> = { tp: 'sp', tn: 'sn' };
  const { containerIndicator: _, ...plain } = soundCircuit({
    'k-second-pos': { kind: 'contact', zone: 'container', container: 'second', rest: 'open', nodes: ['x', 'sp'] },
    'k-second-neg': { kind: 'contact', zone: 'container', container: 'second', rest: 'open', nodes: ['y', 'sn'] },
  });
  const others = soundExits.map((exit) => ({
    ...exit,
    pole: { ...exit.pole, container: 'second' },
    path: { ...exit.path, nodes: exit.path.nodes.map((node) => second[node] ?? `second-${node}`) },
  }));
  return soundFacts({
    circuit: { ...plain, ...indicators },
    topology: { containers: ['main', 'second'] },
    exits: [...soundExits, ...others],
  });
};

export const rows: RuleCases = {
  cases: [
    {
      name: 'a sound car',
      facts: soundFacts(),
      status: 'met',
      message: 'met',
      says: ['each container (main)', 'tp, tn'],
    },
    { name: 'the leads the other way round', facts: sensing(['tn', 'tp']), status: 'met', message: 'met' },
    {
      name: 'leads on the cells’ side',
      facts: sensing(['bp', 'bn']),
      status: 'violated',
      message: 'violated',
      says: ['bp, bn'],
      remedySays: ['vehicle-side'],
    },
    { name: 'leads beyond the disconnect', facts: sensing(['lp', 'tn']), status: 'violated', message: 'violated' },
    {
      name: 'nothing stated',
      facts: sensing(undefined),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/containerIndicator/senses'],
    },
    {
      name: 'none by its own description',
      facts: twoContainers({ containerIndicators: [] }),
      status: 'violated',
      message: 'absent',
      says: ['main, second'],
      remedySays: ['vehicle-side'],
    },
    {
      name: 'two containers, and the indicator of one only',
      facts: twoContainers({ containerIndicator: { senses: ['tp', 'tn'] } }),
      status: 'undetermined',
      message: 'undetermined',
      says: ['container second'],
      missing: ['#/circuit/containerIndicators'],
    },
    {
      name: 'two containers, and the indicators of both',
      facts: twoContainers({
        containerIndicator: { senses: ['tp', 'tn'] },
        containerIndicators: [{ senses: ['sn', 'sp'] }],
      }),
      status: 'met',
      message: 'met',
      says: ['main, second', 'tp, tn and sn, sp'],
    },
    {
      name: 'two containers, and both indicators in the list',
      facts: twoContainers({ containerIndicators: [{ senses: ['sp', 'sn'] }, { senses: ['tp', 'tn'] }] }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'two containers, and an indicator across both',
      facts: twoContainers({
        containerIndicator: { senses: ['tp', 'tn'] },
        containerIndicators: [{ senses: ['tp', 'sn'] }],
      }),
      status: 'violated',
      message: 'violated',
      says: ['tp, sn'],
    },
    {
      name: 'two containers, and an indicator of which nothing is said',
      facts: twoContainers({ containerIndicators: [{ senses: ['tp', 'tn'] }, {}] }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/containerIndicators/1/senses'],
    },
    {
      name: 'a container of two without a relay in one pole, and leads that may be its own',
      facts: soundFacts({
        circuit: soundCircuit({}, { containerIndicator: { senses: ['lp', 'tn'] } }),
        topology: { containers: ['main', 'second'] },
      }),
      status: 'not-applicable',
      message: 'partly',
      causedBy: ['isolation-both-poles'],
    },
    {
      name: 'two relays in one pole: the vehicle side is behind the second',
      facts: soundFacts({
        circuit: soundCircuit({}, { containerIndicator: { senses: ['tp', 'tn'] } }),
        topology: { isolationRelays: ['air-neg', 'air-pos', 'air-second'] },
        exits: soundExits.map((exit) =>
          exit.cutBy === 'air-pos'
            ? {
                ...exit,
                path: {
                  ...exit.path,
                  elements: ['fuse-main', 'air-second', 'air-pos'],
                  nodes: ['bp', 'f', 'fm', 'tp'],
                },
              }
            : exit,
        ),
      }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a relay in one pole only',
      facts: soundFacts({ exits: soundExits.slice(0, 2) }),
      status: 'not-applicable',
      message: 'none',
      causedBy: ['isolation-both-poles'],
    },
  ],
};
