import type { RuleCases } from '../rule-case.js';
import { about, exact, pointerTo, soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const car = (fuse: object | null, more: Readonly<Record<string, object>> = {}) =>
  soundFacts({ circuit: soundCircuit({ 'fuse-main': fuse, ...more }) });

export const rows: RuleCases = {
  cases: [
    {
      // 400 V / (0.8 · 0.15 Ω) = 3333 A
      name: 'a sound car: 3.33 kA and 20 kA',
      facts: soundFacts(),
      status: 'met',
      message: 'met',
      says: ['fuse-main meets up to 3.333 kA and breaks 20 kA'],
    },
    {
      name: 'a fuse that breaks 3 kA',
      facts: car({ breakingCurrent: 3000 }),
      status: 'violated',
      message: 'violated',
      says: ['fuse-main meets up to 3.333 kA and breaks 3 kA'],
      // 3333 A / 0.8 = 4167 A
      remedySays: ['3.333 kA', '4.17 kA'],
      elements: ['fuse-main'],
    },
    {
      // 400 V / (0.12 + 0.04) Ω = 2500 A
      name: 'the same with 40 mΩ in the fuse itself',
      facts: car({ breakingCurrent: 3000, resistance: exact(0.04) }),
      status: 'met',
      message: 'met',
      says: ['2.5 kA'],
    },
    {
      // Two in a row, 110 V and 400 V: 510 V / (0.12 + 0.03) Ω = 3400 A.
      name: 'two accumulators in a row',
      facts: car(
        { nodes: ['m1', 'm2'], breakingCurrent: 3399 },
        {
          acc: { nodes: ['bp', 'm1'] },
          'acc-low': {
            kind: 'accumulator',
            zone: 'container',
            nodes: ['m2', 'bn'],
            voltage: about(100, 0.1),
            resistance: exact(0.03),
          },
          'air-pos': { nodes: ['bp', 'tp'] },
        },
      ),
      status: 'violated',
      message: 'violated',
      says: ['3.4 kA'],
    },
    {
      // Two side by side halve the resistance: 400 V / 0.06 Ω = 6667 A.
      name: 'two accumulators side by side',
      facts: car(
        { breakingCurrent: 6000 },
        {
          'acc-second': {
            kind: 'accumulator',
            zone: 'container',
            nodes: ['bp', 'bn'],
            voltage: about(370, 0.05),
            resistance: about(0.15, 0.2),
          },
        },
      ),
      status: 'violated',
      message: 'violated',
      says: ['6.667 kA'],
    },
    {
      name: 'an internal resistance not stated',
      facts: car({}, { acc: { resistance: undefined } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'acc', 'resistance')],
    },
    {
      name: 'an internal resistance of 0, which limits nothing',
      facts: car({}, { acc: { resistance: exact(0) } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'acc', 'resistance')],
    },
    {
      name: 'a breaking current not stated',
      facts: car({ breakingCurrent: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'fuse-main', 'breakingCurrent')],
    },
    {
      name: 'no fuse',
      facts: car(null),
      status: 'not-applicable',
      message: 'none',
      causedBy: ['main-fuse'],
    },
  ],
};
