import type { RuleCases } from '../rule-case.js';
import { about, pointerTo, soundCircuit } from '../sound-car.js';
import { collegiate2024, soundFacts } from '../sound-facts.js';

const fuse = (change: object | null, breakingCurrent: number | undefined = 500) =>
  soundFacts({ circuit: soundCircuit({ 'fuse-main': change, 'air-pos': { ratings: { breakingCurrent } } }) });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car: 100 A and 500 A', facts: soundFacts(), status: 'met', message: 'met', says: ['fuse-main'] },
    {
      name: 'a fuse of 500 A before a relay that breaks 500 A',
      facts: fuse({ ratedCurrent: 500 }),
      status: 'violated',
      message: 'violated',
      says: ['fuse-main is rated 500 A', 'air-pos breaks 500 A'],
      elements: ['fuse-main', 'air-neg', 'air-pos'],
      remedySays: ['500 A', '400 A'],
    },
    {
      name: 'the same where the book compares nothing',
      facts: fuse({ ratedCurrent: 500 }),
      ruleset: collegiate2024,
      status: 'met',
      message: 'met',
    },
    {
      name: 'no fuse',
      facts: fuse(null),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'violated',
      says: ['container main has none'],
      elements: [],
    },
    {
      name: 'a fuse in the middle of the cells',
      facts: soundFacts({
        circuit: soundCircuit({
          acc: { nodes: ['bp', 'm1'] },
          'acc-low': { kind: 'accumulator', zone: 'container', nodes: ['m2', 'bn'], voltage: about(100, 0.1) },
          'fuse-main': { nodes: ['m1', 'm2'] },
          'air-pos': { nodes: ['bp', 'tp'] },
        }),
      }),
      status: 'met',
      message: 'met',
      says: ['fuse-main'],
    },
    {
      name: 'a fuse of a sense lead only',
      facts: fuse({ nodes: ['bp', 'sense'] }),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'a rated current not stated',
      facts: fuse({ ratedCurrent: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'fuse-main', 'ratedCurrent')],
    },
    {
      name: 'a breaking current not stated',
      facts: soundFacts({ circuit: soundCircuit({ 'air-pos': { ratings: { dcVoltage: 800 } } }) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'air-pos', 'ratings/breakingCurrent')],
    },
  ],
};
