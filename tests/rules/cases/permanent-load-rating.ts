import type { RuleCases } from '../rule-case.js';
import { about, bare, pointerTo, soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const resistor = { kind: 'resistor', technology: 'film', mounting: 'as-rated' };
const rated = (power: number) => ({ ratings: { power, fullPowerUpTo: 70, zeroPowerAt: 155 } });
const bleed = (power: number) => ({
  ...resistor,
  role: 'bleed',
  nodes: ['lp', 'tn'],
  resistance: about(100_000, 0),
  ...rated(power),
});
const car = (changes: Record<string, object | null>) => soundFacts({ circuit: soundCircuit(changes) });

export const rows: RuleCases = {
  cases: [
    {
      name: 'a sound car, its discharge switched off while driving',
      facts: soundFacts(),
      status: 'not-applicable',
      message: 'none',
    },
    // 400²/100 000 = 1.6 W
    {
      name: 'a bleed resistor of 2 W',
      facts: car({ 'r-bleed': bleed(2) }),
      status: 'met',
      message: 'met',
      says: ['r-bleed'],
    },
    {
      name: 'a bleed resistor of 1 W',
      facts: car({ 'r-bleed': bleed(1) }),
      status: 'violated',
      message: 'violated',
      says: ['r-bleed takes 1.6 W and stands 1 W'],
      elements: ['r-bleed'],
      remedySays: ['switch them off'],
    },
    {
      // 90 kΩ over 10 kΩ: nine tenths of 400 V, 360²/90 000 = 1.44 W, and 40²/10 000 = 0.16 W: a divider, textbook.
      name: 'a divider of which the upper part takes 1.44 W',
      facts: car({
        'r-high': { ...resistor, role: 'sense', nodes: ['lp', 'sm'], resistance: about(90_000, 0), ...rated(1.43) },
        'r-low': { ...resistor, role: 'sense', nodes: ['sm', 'tn'], resistance: about(10_000, 0), ...rated(0.25) },
      }),
      status: 'violated',
      message: 'violated',
      says: ['r-high takes 1.44 W'],
      elements: ['r-high'],
    },
    {
      name: 'a discharge resistor without a contact',
      facts: car({ 'k-dis': null, 'r-dis': { nodes: ['lp', 'tn'], ...rated(40) } }),
      status: 'violated',
      message: 'violated',
      says: ['r-dis takes 42.11 W'],
      causedBy: ['discharge-rating'],
    },
    {
      name: 'the same beside a bleed resistor of 1 W, which is nobody else’s business',
      facts: car({ 'k-dis': null, 'r-dis': { nodes: ['lp', 'tn'], ...rated(40) }, 'r-bleed': bleed(1) }),
      status: 'violated',
      message: 'violated',
      causedBy: [],
    },
    {
      name: 'a discharge contact with a supply of its own, closed for all that is known',
      facts: car({ 'k-dis': { suppliedBy: 'independent' }, 'r-dis': rated(40) }),
      status: 'violated',
      message: 'violated',
      causedBy: ['discharge-rating'],
    },
    {
      name: 'a rating not stated',
      facts: car({ 'r-bleed': { ...bleed(1), ratings: undefined } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [
        '#/circuit/elements/13/ratings/power',
        '#/circuit/elements/13/ratings/fullPowerUpTo',
        '#/circuit/elements/13/ratings/zeroPowerAt',
      ],
    },
    {
      name: 'a resistance without a tolerance that decides',
      facts: car({ 'r-bleed': { ...bleed(1.7), resistance: bare(100_000) } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/elements/13/resistance'],
    },
    {
      name: 'a link not known',
      facts: soundFacts({ circuit: soundCircuit({ 'r-bleed': bleed(1) }, { link: undefined as never }) }),
      status: 'not-applicable',
      message: 'none',
    },
    {
      name: 'measuring points, which nothing loads',
      facts: car({ 'r-mp': { ratings: { power: 0.001 } } }),
      status: 'not-applicable',
      message: 'none',
    },
  ],
};

// The added resistor stands behind the thirteen parts of the sound car.
if (pointerTo(soundCircuit({ 'r-bleed': bleed(1) }), 'r-bleed', 'resistance') !== '#/circuit/elements/13/resistance') {
  throw new Error('the sound car has another number of parts');
}
