import type { Exposure } from '../../../src/facts/facts.js';
import type { RuleCases } from '../rule-case.js';
import { soundExits, soundFacts } from '../sound-facts.js';

const exposure = (changes: Partial<Exposure>): Exposure => ({
  pole: { container: 'main', polarity: 'positive', node: 'bp' },
  node: 'sp',
  touches: ['m-sense'],
  path: { elements: ['r-sense'], nodes: ['bp', 'sp'], resistance: 1e6 },
  resistance: 1e6,
  current: 400e-6,
  aheadOutside: false,
  dangerous: false,
  missing: [],
  ...changes,
});

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met' },
    {
      name: 'a sense lead behind 1 MΩ inside the container',
      facts: soundFacts({ exposures: [exposure({})] }),
      status: 'met',
      message: 'leak',
      says: ['1 MΩ', '400 µA', 'r-sense'],
    },
    {
      // 500 Ω/V of 400 V are 200 kΩ: EV 1.2.1.
      name: 'the pre-charge resistor outside ahead of its relay',
      facts: soundFacts({
        exposures: [
          exposure({
            node: 'pm',
            path: { elements: ['r-pre'], nodes: ['bp', 'pm'], resistance: 1000 },
            resistance: 1000,
            current: 0.4,
            aheadOutside: true,
            dangerous: true,
          }),
        ],
      }),
      status: 'violated',
      message: 'violated',
      says: ['node pm', '1 kΩ', '400 mA', 'ahead of the resistance is outside'],
      elements: ['r-pre'],
      remedySays: ['200 kΩ'],
    },
    {
      name: 'a bare wire outside',
      facts: soundFacts({
        exposures: [
          exposure({
            path: { elements: ['fuse-main'], nodes: ['bp', 'f'], resistance: 0 },
            resistance: 0,
            current: Infinity,
            dangerous: true,
          }),
        ],
      }),
      status: 'violated',
      message: 'violated',
      says: ['(0 Ω, a short there is a short circuit of the accumulator)'],
    },
    {
      name: 'a pole that nothing cuts, with all that hangs on it named once',
      facts: soundFacts({
        exits: soundExits.map((exit) => ({ ...exit, faults: ['none'] })),
        exposures: [
          exposure({
            path: { elements: [], nodes: ['bp'], resistance: 0 },
            resistance: 0,
            current: Infinity,
            dangerous: true,
            node: 'bp',
          }),
          exposure({ path: { elements: ['hvd'], nodes: ['bp', 'lp'], resistance: 0 }, dangerous: true, node: 'lp' }),
        ],
      }),
      status: 'violated',
      message: 'violated',
      says: ['outside a container: node bp at the positive pole of container main directly'],
      elements: [],
      causedBy: ['isolation-both-poles'],
    },
    {
      name: 'a leakage not stated',
      facts: soundFacts({ exposures: [exposure({ missing: ['#/circuit/elements/4/openResistance'] })] }),
      status: 'undetermined',
      message: 'undetermined',
      says: ['openResistance of k-pre'],
      missing: ['#/circuit/elements/4/openResistance'],
    },
  ],
};
