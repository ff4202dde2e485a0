import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { about, pointerTo, soundCircuit, soundParts } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const car = (changes: Record<string, object | null>, volts = 400) =>
  soundFacts({ circuit: soundCircuit(changes), openCircuitVoltage: figure(volts) });
const part = (id: string) => soundParts.find((each) => each.id === id)!;
const both = (ohms: number, power: number) => {
  const change = { resistance: about(ohms, 0), ratings: { power, fullPowerUpTo: 70, zeroPowerAt: 155 } };
  return { 'r-mp': change, 'r-mn': change };
};

export const rows: RuleCases = {
  cases: [
    // (Umax/2)²/R: 2, 4 and 6 W at 200, 400 and 600 V with 5, 10 and 15 kΩ.
    { name: 'a sound car: 10 kΩ at 400 V', facts: soundFacts(), status: 'met', message: 'met', says: ['10 kΩ', '4 W'] },
    {
      name: '5.1 kΩ at 200 V, 2 W',
      facts: car(both(5100, 2), 200),
      status: 'met',
      message: 'met',
      says: ['5 kΩ', '2 W'],
    },
    {
      name: '15 kΩ at 600 V, 6 W',
      facts: car(both(15_000, 6), 600),
      status: 'met',
      message: 'met',
      says: ['15 kΩ', '6 W'],
    },
    {
      name: '10 kΩ at 401 V, where the next step begins',
      facts: car(both(10_000, 10), 401),
      status: 'violated',
      message: 'violated',
      says: ['r-mp is 10 kΩ, and 15 kΩ is wanted'],
      elements: ['r-mp', 'r-mn'],
    },
    {
      name: '10 kΩ of 3 W at 400 V',
      facts: car(both(10_000, 3)),
      status: 'violated',
      message: 'violated',
      says: ['r-mp takes 4 W in a short of the points and stands 3 W'],
      remedySays: ['10 kΩ', '4 W'],
    },
    {
      name: 'a point without a resistor',
      facts: car({ 'r-mn': null }),
      status: 'violated',
      message: 'violated',
      says: ['the point mn has no resistor'],
      elements: [],
    },
    {
      name: 'a point at the near end of its resistor',
      facts: soundFacts({ circuit: soundCircuit({}, { measuringPoints: { positive: 'lp', negative: 'mn' } }) }),
      status: 'violated',
      message: 'violated',
      says: ['the point lp has no resistor of its own'],
    },
    {
      name: 'two resistors in series, 2 W each',
      facts: car({
        'r-mp': { nodes: ['half', 'mp'], resistance: about(5000, 0), ratings: { power: 2, fullPowerUpTo: 70 } },
        'r-mp-2': {
          ...part('r-mp'),
          id: 'r-mp-2',
          nodes: ['lp', 'half'],
          resistance: about(5000, 0),
          ratings: { power: 2, fullPowerUpTo: 70 },
        },
      }),
      status: 'met',
      message: 'met',
      elements: ['r-mp', 'r-mp-2', 'r-mn'],
    },
    {
      name: 'two resistors in parallel of too high a value, one of 1 W',
      facts: car({
        'r-mp': { resistance: about(24_000, 0), ratings: { power: 1, fullPowerUpTo: 70, zeroPowerAt: 155 } },
        'r-mp-2': { ...part('r-mp'), id: 'r-mp-2', resistance: about(24_000, 0) },
      }),
      status: 'violated',
      message: 'violated',
      // (400/2)²/24 kΩ in each
      says: ['r-mp, r-mp-2 are together 12 kΩ, and 10 kΩ is wanted', 'r-mp takes 1.667 W'],
    },
    {
      name: 'a power rating not stated',
      facts: car({ 'r-mp': { ratings: undefined } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['ratings/power', 'ratings/fullPowerUpTo', 'ratings/zeroPowerAt'].map((name) =>
        pointerTo(soundCircuit(), 'r-mp', name),
      ),
    },
    {
      name: 'points not stated',
      facts: soundFacts({ circuit: soundCircuit({}, { measuringPoints: undefined as never }) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/measuringPoints'],
    },
    {
      name: 'a voltage that cannot be computed',
      facts: soundFacts({
        openCircuitVoltage: figure(null, { reason: 'not-stated', missing: ['#/circuit/elements/0/voltage'] }),
      }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/elements/0/voltage'],
    },
    {
      name: '700 V, above the last step',
      facts: car({}, 700),
      status: 'not-applicable',
      message: 'beyond',
      causedBy: ['highest-voltage'],
    },
  ],
};
