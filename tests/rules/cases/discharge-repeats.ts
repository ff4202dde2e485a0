import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { fall, soundFacts } from '../sound-facts.js';

const line = { fullPowerUpTo: 40, zeroPowerAt: 240 };
const car = (joules: number, change: object, power = 5) =>
  soundFacts({
    circuit: soundCircuit({ 'r-dis': { ratings: { ...line, power }, ...change } }),
    falls: [fall('shutdown', undefined, { resistorEnergy: new Map([['r-dis', figure(joules)]]) })],
  });
const field = (name: string) => pointerTo(soundCircuit(), 'r-dis', name);

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['3 discharges within 15 s'] },
    {
      name: 'a resistor that stands the highest voltage for ever',
      facts: car(1e6, { thermal: undefined }, 100),
      status: 'met',
      message: 'met',
    },
    { name: 'a small resistor with thermal mass enough', facts: car(44, {}), status: 'met', message: 'met' },
    {
      // Room 1 J/K · 200 K = 200 J; three within 15 s with 1/e after 20 s: 1 + e^(−0.25) + e^(−0.5) = 2.385, so 83.85 J of each.
      name: '90 J into 1 J/K and 20 K/W',
      facts: car(90, { thermal: { resistance: 20, capacitance: 1, maxTemperature: 240 } }),
      status: 'violated',
      message: 'violated',
      says: ['r-dis takes 90 J each time and stands 83.85 J'],
      elements: ['r-dis'],
      remedySays: ['thermal mass'],
    },
    {
      name: 'nothing stated of the thermal mass',
      facts: car(90, { thermal: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('thermal/capacitance'), field('thermal/maxTemperature'), field('thermal/resistance')],
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
