import type { RuleCases } from '../rule-case.js';
import { soundCircuit } from '../sound-car.js';
import { soundExits, soundFacts } from '../sound-facts.js';

const sensing = (senses: readonly [string, string] | undefined) =>
  soundFacts({ circuit: soundCircuit({}, { containerIndicator: senses === undefined ? {} : { senses } }) });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['container main', 'tp, tn'] },
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
