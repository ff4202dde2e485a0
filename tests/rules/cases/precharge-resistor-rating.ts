import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const ratings = (change: object) => ({
  power: 100,
  fullPowerUpTo: 40,
  zeroPowerAt: 240,
  overload: { factor: 5, duration: 5 },
  ...change,
});
const resistor = (change: object, precharge: object = {}) =>
  soundFacts({ circuit: soundCircuit({ 'r-pre': change }, { precharge }) });
const field = (name: string) => pointerTo(soundCircuit(), 'r-pre', name);
const control = '#/circuit/control/precharge';

export const rows: RuleCases = {
  cases: [
    {
      name: 'a sound car: 168 W of 5 × 100 W, also into a short for 5 s',
      facts: soundFacts(),
      status: 'met',
      message: 'met',
      says: ['168.4 W'],
    },
    {
      name: '25 W where 168 W come: 5 × 25 W = 125 W',
      facts: resistor({ ratings: ratings({ power: 25 }) }),
      status: 'violated',
      message: 'violated',
      says: ['168.4 W', '125 W'],
      elements: ['r-pre'],
      remedySays: ['168.4 W', '211 W'],
    },
    {
      name: '100 W derated to 33 % at 173 °C: 5 × 33.5 W',
      facts: resistor({ ambientMax: 173, ratings: ratings({}) }),
      status: 'violated',
      message: 'violated',
      says: ['167.5 W'],
    },
    {
      name: 'too hot in a rise',
      facts: soundFacts({ rise: { resistorPeakTemperature: figure(230, { max: 250 }) } }),
      status: 'violated',
      message: 'violated',
      says: ['250 °C', '240 °C'],
    },
    {
      name: 'a temperature that tolerances decide about',
      facts: soundFacts({
        rise: {
          resistorPeakTemperature: figure(230, {
            max: 250,
            stated: { min: 230, max: 239 },
            bare: ['#/circuit/elements/7/capacitance'],
          }),
        },
      }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/elements/7/capacitance'],
    },
    {
      // 168.4 W · 2 K/W · (1 − e^(−200/120)) = 273 K above 40 °C: first-order heating, textbook.
      name: 'a short for 200 s, far longer than the overload rating and too long for the thermal mass',
      facts: resistor({}, { timeout: 200 }),
      status: 'violated',
      message: 'violated',
      says: ['into a short for 200 s'],
    },
    {
      // One is 336.8 K · (1 − e^(−60/120)) = 132.5 K of 200 K, three in a row 261.7 K: what cooling there is decides.
      name: 'three attempts of 60 s, of which one alone would do, and no interval stated',
      facts: resistor({}, { timeout: 60, attempts: 3 }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [`${control}/retryInterval`],
    },
    {
      // From 60 s to 60 s there is no cooling.
      name: 'three attempts of 60 s at once',
      facts: resistor({}, { timeout: 60, attempts: 3, retryInterval: 0 }),
      status: 'violated',
      message: 'violated',
      says: ['3 attempts', 'one every 60 s'],
    },
    {
      // 132.5 K · (1 − q³)/(1 − q), q = e^(−150/120): 132.5 · 1.369 = 181 K.
      name: 'three attempts of 60 s every 150 s',
      facts: resistor({}, { timeout: 60, attempts: 3, retryInterval: 150 }),
      status: 'met',
      message: 'met',
    },
    {
      // q = e^(−110/120): 132.5 · 1.560 = 206.6 K.
      name: 'three attempts of 60 s every 110 s',
      facts: resistor({}, { timeout: 60, attempts: 3, retryInterval: 110 }),
      status: 'violated',
      message: 'violated',
      says: ['one every 110 s'],
    },
    {
      name: 'an overload rating not stated',
      facts: resistor({ ratings: ratings({ overload: undefined }) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [field('ratings/overload')],
    },
    {
      name: 'nothing stated of the rating',
      facts: resistor({ ratings: undefined, thermal: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [
        'ratings/power',
        'ratings/fullPowerUpTo',
        'ratings/zeroPowerAt',
        'ratings/overload',
        'thermal/capacitance',
        'thermal/maxTemperature',
      ].map(field),
    },
    {
      name: 'a timeout not stated',
      facts: resistor({}, { timeout: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [`${control}/timeout`],
    },
    {
      name: 'the number of attempts not stated',
      facts: resistor({}, { attempts: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [`${control}/attempts`],
    },
    {
      name: 'a timer, which no short would stop',
      facts: resistor({}, { method: 'timer', timeout: undefined }),
      status: 'met',
      message: 'met',
    },
    {
      name: 'no resistor in the rise',
      facts: soundFacts({ rise: { resistor: undefined } }),
      status: 'not-applicable',
      message: 'none',
      causedBy: ['precharge-reaches-threshold'],
    },
  ],
};
