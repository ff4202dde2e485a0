import { createFacts } from '../../../src/facts/create-facts.js';
import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { exact, pointerTo, soundCircuit } from '../sound-car.js';
import { soundFacts, student2020 } from '../sound-facts.js';

const ratings = { dcVoltage: 800, makingCurrent: 300, breakingCurrent: 500, carryingCurrent: 200 };
const rated = (id: string, change: object) =>
  soundFacts({ circuit: soundCircuit({ [id]: { ratings: { ...ratings, ...change } } }) });

const ordered = (linkRatio: number, makingCurrent = 300) => {
  const step = { close: [], open: [], release: false };
  const sequence = [
    { ...step, at: 0, close: ['air-neg', 'k-pre'], open: ['k-dis'] },
    { ...step, when: { linkRatio, falling: false }, close: ['air-pos'] },
  ];
  const circuit = soundCircuit(
    {
      acc: { resistance: exact(0.2) },
      'c-link': { esr: exact(0.005) },
      'air-pos': { ratings: { ...ratings, makingCurrent } },
    },
    { control: { ...soundCircuit().control, sequence } },
  );
  return createFacts(circuit, student2020.conditions);
};

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['air-neg, air-pos, k-pre'] },
    {
      name: 'a last relay that makes 150 A and is rated 100 A',
      facts: rated('air-pos', { makingCurrent: 100 }),
      status: 'violated',
      message: 'violated',
      says: ['air-pos makes 150 A and is rated 100 A'],
      elements: ['air-pos'],
      remedySays: ['threshold'],
    },
    {
      name: 'a voltage rating below the full accumulator’s',
      facts: rated('k-pre', { dcVoltage: 350 }),
      status: 'violated',
      message: 'violated',
      says: ['400 V', '350 V'],
    },
    {
      name: 'an isolation relay that carries less than its fuse lets through',
      facts: rated('air-neg', { carryingCurrent: 90 }),
      status: 'violated',
      message: 'violated',
      says: ['carries up to 100 A and is rated 90 A'],
      remedySays: ['a main fuse of a lower rating', 'air-neg carrying current 125 A'],
    },
    {
      // The car itself takes 60 A, and the relay carries that; the fuse is beyond what the relay breaks too.
      name: 'an isolation relay that carries less than a fuse that is too large for it anyhow',
      facts: soundFacts({
        circuit: soundCircuit({ 'fuse-main': { ratedCurrent: 600 } }, { operatingCurrent: 60 }),
      }),
      status: 'violated',
      message: 'violated',
      says: ['air-neg carries up to 600 A and is rated 200 A'],
      remedySays: ['a main fuse of a lower rating'],
      causedBy: ['main-fuse'],
    },
    {
      name: 'the same, and a voltage rating too low besides',
      facts: soundFacts({
        circuit: soundCircuit(
          { 'fuse-main': { ratedCurrent: 600 }, 'k-pre': { ratings: { ...ratings, dcVoltage: 350 } } },
          { operatingCurrent: 60 },
        ),
      }),
      status: 'violated',
      message: 'violated',
      says: ['600 A', '350 V'],
      causedBy: [],
    },
    {
      name: 'a fuse that states no rating',
      facts: soundFacts({ circuit: soundCircuit({ 'fuse-main': { ratedCurrent: undefined } }) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'fuse-main', 'ratedCurrent')],
    },
    {
      // 400 V / 950 Ω through a shorted link
      name: 'a pre-charge relay that breaks 0.4 A',
      facts: rated('k-pre', { breakingCurrent: 0.4 }),
      status: 'violated',
      message: 'violated',
      says: ['421.1 mA', '400 mA'],
    },
    {
      // It closes at 49.5 %, the comparison's error taken off: (400 − 198) V / (0.2 + 0.005) Ω.
      name: 'an order of the team’s own that closes the last relay at half the voltage',
      facts: ordered(0.5),
      status: 'violated',
      message: 'violated',
      says: ['air-pos makes 985.4 A and is rated 300 A'],
      remedySays: ['higher threshold', 'air-pos making current 1.24 kA'],
      elements: ['air-pos'],
      causedBy: ['precharge-order'],
    },
    {
      // At 97 % it still takes 68 A.
      name: 'the same with a relay that does not even make what is left at the threshold',
      facts: ordered(0.5, 40),
      status: 'violated',
      message: 'violated',
      causedBy: [],
    },
    {
      name: 'an accumulator of unknown resistance, which alone limits the current at the last closing',
      facts: createFacts(
        soundCircuit({ acc: { resistance: undefined }, 'c-link': { esr: exact(0.005) } }),
        student2020.conditions,
      ),
      status: 'undetermined',
      message: 'undetermined',
      says: ['resistance of acc'],
      missing: [pointerTo(soundCircuit(), 'acc', 'resistance')],
    },
    {
      // (400 − 386) V / 0.205 Ω = 68.3 A
      name: 'an order of the team’s own that waits for 97 %',
      facts: ordered(0.97),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a threshold of unknown error: how far the link has risen at the last closing is not known',
      facts: createFacts(soundCircuit({}, { precharge: { comparisonError: undefined } }), student2020.conditions),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/control/precharge/comparisonError'],
    },
    {
      name: 'a threshold not stated',
      facts: createFacts(soundCircuit({}, { precharge: { threshold: undefined } }), student2020.conditions),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/control/precharge/threshold'],
    },
    {
      name: 'a making current not stated',
      facts: rated('air-pos', { makingCurrent: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'air-pos', 'ratings/makingCurrent')],
    },
    {
      name: 'the operating current not stated',
      facts: soundFacts({ circuit: soundCircuit({}, { operatingCurrent: undefined as never }) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/operatingCurrent'],
    },
    {
      name: 'a current at closing that cannot be computed',
      facts: soundFacts({
        rise: { currentAtSecondClosure: figure(null, { reason: 'not-stated', missing: ['#/circuit/elements/7/esr'] }) },
      }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/elements/7/esr'],
    },
    {
      name: 'a last relay that never closes',
      facts: soundFacts({ rise: { currentAtSecondClosure: figure(null, { reason: 'never' }) } }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'no relay at all',
      facts: soundFacts({ topology: { isolationRelays: [], prechargeRelays: [] } }),
      status: 'not-applicable',
      message: 'none',
    },
  ],
};
