import { withOverrides } from '../../../src/rules/with-overrides.js';
import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { fall, soundFacts, student2020 } from '../sound-facts.js';

const line = { fullPowerUpTo: 40, zeroPowerAt: 240 };
const overload = { factor: 10, duration: 2 };
/** @param hot °C that three falls within 15 s come to; it must be asked for those. */
const car = (joules: number, change: object, power = 5, hot = 50) =>
  soundFacts({
    circuit: soundCircuit({ 'r-dis': { ratings: { ...line, power }, ...change } }),
    falls: [
      fall('shutdown', undefined, {
        resistorEnergy: new Map([['r-dis', figure(joules)]]),
        repeatsPeakTemperature: (...asked) => figure(asked.join() === 'r-dis,3,5' ? hot : Number.NaN),
      }),
    ],
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
      name: 'falls that come to 250 °C of 240 °C',
      facts: car(90, { thermal: { resistance: 20, capacitance: 1, maxTemperature: 240 } }, 5, 250),
      status: 'violated',
      message: 'violated',
      says: ['r-dis reaches 250 °C and stands 240 °C'],
      elements: ['r-dis'],
      remedySays: ['thermal mass', '90 J'],
      evidence: { actual: 250, limit: 240, unit: '°C' },
      // 5 W against the 42 W of the highest voltage.
      causedBy: ['discharge-rating'],
    },
    {
      name: 'the same where the book asks for 2 s at the highest voltage, and an overload rating gives them',
      facts: car(
        90,
        { thermal: { resistance: 20, capacitance: 1, maxTemperature: 240 }, ratings: { ...line, power: 5, overload } },
        5,
        250,
      ),
      ruleset: withOverrides(student2020, { parameters: { dischargeRatingTime: 2 } }).ruleset,
      status: 'violated',
      message: 'violated',
      causedBy: [],
    },
    {
      name: 'a thermal mass that may keep all of it',
      facts: car(90, { thermal: { capacitance: 2, maxTemperature: 240 } }),
      status: 'met',
      message: 'met',
      evidence: { actual: 90, unit: 'J' },
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
