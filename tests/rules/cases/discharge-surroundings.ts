import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { collegiate2024, soundFacts } from '../sound-facts.js';

const car = (surroundings: object | undefined, change: object = {}) =>
  soundFacts({ circuit: soundCircuit({ 'r-dis': { surroundings, ...change } }) });
const field = (name: string) => pointerTo(soundCircuit(), 'r-dis', name);

export const rows: RuleCases = {
  cases: [
    // 40 °C + 42.1 W · 2 K/W = 124.2 °C.
    { name: 'a sound car: 124.2 °C beside 200 °C', facts: soundFacts(), status: 'met', message: 'met' },
    {
      name: 'cable ties for 105 °C beside it',
      facts: car({ limitTemperature: 105 }),
      status: 'violated',
      message: 'violated',
      says: ['124.2 °C', '105 °C'],
      elements: ['r-dis'],
      remedySays: ['distance'],
    },
    {
      // 40 °C + 42.1 W · 2 K/W · (1 − e^(−15/120)) = 49.9 °C.
      name: 'the same where 15 s are asked for',
      facts: car({ limitTemperature: 105 }),
      ruleset: collegiate2024,
      status: 'met',
      message: 'met',
    },
    {
      name: 'a measured temperature, which counts more',
      facts: car({ limitTemperature: 105, measuredTemperature: 90 }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a measured temperature above the limit',
      facts: car({ limitTemperature: 105, measuredTemperature: 110 }),
      status: 'violated',
      message: 'violated',
    },
    {
      // 42.1 W at the most, and 20 W is what it is rated for.
      name: 'a resistor too weak anyhow',
      facts: car({ limitTemperature: 105 }, { ratings: { power: 20, fullPowerUpTo: 40, zeroPowerAt: 240 } }),
      status: 'violated',
      message: 'violated',
      causedBy: ['discharge-rating'],
    },
    {
      name: 'the same with its temperature measured',
      facts: car(
        { limitTemperature: 105, measuredTemperature: 110 },
        { ratings: { power: 20, fullPowerUpTo: 40, zeroPowerAt: 240 } },
      ),
      status: 'violated',
      message: 'violated',
      causedBy: [],
    },
    {
      name: 'nothing stated of the surroundings',
      facts: car(undefined),
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('surroundings/limitTemperature')],
    },
    {
      name: 'neither a thermal resistance nor a measurement',
      facts: car({ limitTemperature: 105 }, { thermal: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('surroundings/measuredTemperature')],
    },
    {
      name: 'no discharge',
      facts: soundFacts({ topology: { dischargeResistors: [] } }),
      status: 'not-applicable',
      message: 'none',
      causedBy: ['discharge-time'],
    },
  ],
};
