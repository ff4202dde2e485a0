import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { collegiate2024, fall, soundFacts } from '../sound-facts.js';

const line = { fullPowerUpTo: 40, zeroPowerAt: 240 };
const car = (change: object, rest: object = {}) => soundFacts({ circuit: soundCircuit({ 'r-dis': change }, rest) });
const field = (name: string) => pointerTo(soundCircuit(), 'r-dis', name);
const cold = { thermal: undefined };

export const rows: RuleCases = {
  cases: [
    {
      name: 'a sound car: 400²/3800 = 42.1 W of 100 W',
      facts: soundFacts(),
      status: 'met',
      message: 'met',
      says: ['permanently', '42.11 W', '100 W'],
    },
    {
      name: '40 W where 42.1 W come',
      facts: car({ ratings: { ...line, power: 40 } }),
      status: 'violated',
      message: 'violated',
      says: ['r-dis takes 42.11 W and stands 40 W'],
      elements: ['r-dis'],
      remedySays: ['42.11 W', '52.7 W'],
    },
    {
      // (240 − 160)/(240 − 40) = 0.4
      name: '100 W derated to 40 W at 160 °C',
      facts: car({ ambientMax: 160, ratings: { ...line, power: 100 } }),
      status: 'violated',
      message: 'violated',
      says: ['40 W'],
    },
    {
      name: '100 W at 250 °C, above the end of the line',
      facts: car({ ambientMax: 250 }),
      status: 'violated',
      message: 'violated',
      says: ['0 W'],
    },
    {
      name: '110 W derated to 44 W at 160 °C',
      facts: car({ ambientMax: 160, ratings: { ...line, power: 110 } }),
      status: 'met',
      message: 'met',
    },
    {
      name: '100 W in free air, where it is rated 20 W',
      facts: car({ mounting: 'free-air', ratings: { ...line, power: 100, powerFreeAir: 20 } }),
      status: 'violated',
      message: 'violated',
      says: ['20 W'],
    },
    {
      name: 'free air without a rating for it',
      facts: car({ mounting: 'free-air', ratings: { ...line, power: 100 } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('ratings/powerFreeAir')],
    },
    {
      name: 'a wirewound part of which the mounting is not stated',
      facts: car({ mounting: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      says: ['mounting of r-dis'],
      missing: [field('mounting')],
    },
    {
      name: 'a film part of which the mounting is not stated',
      facts: car({ mounting: undefined, technology: 'film' }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a mounting not stated of a part too small in any',
      facts: car({ mounting: undefined, ratings: { ...line, power: 30 } }),
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'a mounting not stated of a part that would do in free air',
      facts: car({ mounting: undefined, ratings: { ...line, power: 100, powerFreeAir: 50 } }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a heat sink of the car’s own without a thermal resistance',
      facts: car({ mounting: 'heat-sink', ...cold }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('thermal/resistance'), field('thermal/maxTemperature')],
    },
    {
      name: 'a heat sink of 2 K/W to 240 °C: 100 W at 40 °C',
      facts: car({ mounting: 'heat-sink' }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a structure of 5 K/W to 240 °C: 40 W at 40 °C',
      facts: car({ mounting: 'structure', thermal: { resistance: 5, capacitance: 60, maxTemperature: 240 } }),
      status: 'violated',
      message: 'violated',
      says: ['40 W'],
    },
    {
      name: 'an ambient not stated',
      facts: car({}, { ambientMax: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('ambientMax')],
    },
    {
      name: 'a derating line not stated, at 40 °C',
      facts: car({ ratings: { power: 100 } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('ratings/fullPowerUpTo'), field('ratings/zeroPowerAt')],
    },
    {
      name: 'a derating line not stated, at 25 °C',
      facts: car({ ambientMax: 25, ratings: { power: 100 } }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'no rating at all',
      facts: car({ ratings: undefined, ...cold }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('ratings/power'), field('ratings/fullPowerUpTo'), field('ratings/zeroPowerAt')],
    },
    {
      name: '15 s by an overload rating of 5 × 10 W for 20 s',
      facts: car({ ...cold, ratings: { ...line, power: 10, overload: { factor: 5, duration: 20 } } }),
      ruleset: collegiate2024,
      status: 'met',
      message: 'met',
      says: ['for 15 s', '50 W'],
    },
    {
      name: '15 s by an overload rating of 4 × 10 W for 20 s',
      facts: car({ ...cold, ratings: { ...line, power: 10, overload: { factor: 4, duration: 20 } } }),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'violated',
      says: ['40 W'],
    },
    {
      name: 'an overload rating for 5 s, which says nothing of 15 s',
      facts: car({ ...cold, ratings: { ...line, power: 10, overload: { factor: 5, duration: 5 } } }),
      ruleset: collegiate2024,
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('ratings/overload'), field('thermal/capacitance'), field('thermal/maxTemperature')],
    },
    {
      // 200 K / (2 K/W · (1 − e^(−15/120))) = 851 W: first-order heating, textbook.
      name: '15 s by the thermal mass: 851 W',
      facts: car({ ratings: { ...line, power: 10 } }),
      ruleset: collegiate2024,
      status: 'met',
      message: 'met',
      says: ['851 W'],
    },
    {
      name: '15 s by a thermal mass of 2 J/K: (1 − e^(−15/4)) · 2 K/W',
      facts: car({ ratings: { ...line, power: 10 }, thermal: { resistance: 5, capacitance: 2, maxTemperature: 200 } }),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'violated',
    },
    {
      // Without letting any heat go: 60 J/K · 200 K / 15 s = 800 W.
      name: '15 s by a thermal mass alone',
      facts: car({ ratings: { ...line, power: 10 }, thermal: { capacitance: 60, maxTemperature: 240 } }),
      ruleset: collegiate2024,
      status: 'met',
      message: 'met',
      says: ['800 W'],
    },
    {
      name: 'a resistance without a tolerance that decides',
      facts: soundFacts({
        circuit: soundCircuit({ 'r-dis': { ratings: { ...line, power: 41 } } }),
        falls: [
          fall('shutdown', undefined, {
            continuousPower: new Map([
              ['r-dis', figure(40, { max: 44.4, stated: { min: 40, max: 40 }, bare: [field('resistance')] })],
            ]),
          }),
        ],
      }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('resistance')],
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
