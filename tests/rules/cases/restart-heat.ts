import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const car = (energy: number, precharge: object = {}, change: object = {}) =>
  soundFacts({
    circuit: soundCircuit({ 'r-pre': change }, { precharge }),
    rise: { resistorEnergy: figure(energy, { max: energy }) },
  });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['44 J', 'started every 60 s'] },
    {
      // Room 60 J/K · 200 K = 12 kJ; starts every 60 s for ever leave E/(1 − e^(−60/120)) = 2.541 E, so 4.722 kJ of each.
      name: 'starts every 60 s for ever: 4.7 kJ each',
      facts: car(4700),
      status: 'met',
      message: 'met',
      says: ['4.722 kJ'],
    },
    {
      name: 'starts every 60 s for ever: 4.8 kJ each',
      facts: car(4800),
      status: 'violated',
      message: 'violated',
      remedySays: ['4.8 kJ'],
      elements: ['r-pre'],
    },
    {
      // Three within 15 s: 1 + e^(−5/120) + e^(−10/120) = 2.879, so 4.168 kJ of each.
      name: 'back to back where no interval is stated',
      facts: car(4200, { minimumRestartInterval: undefined }),
      status: 'violated',
      message: 'violated',
      says: ['started 3 times within 15 s', '4.168 kJ'],
    },
    {
      // The overload rating holds 5 · 100 W · 5 s = 2.5 kJ, so 833 J of three.
      name: 'an overload rating alone, three starts of 800 J',
      facts: car(800, { minimumRestartInterval: 0 }, { thermal: undefined }),
      status: 'met',
      message: 'met',
      says: ['833.3 J'],
    },
    {
      name: 'a thermal mass not stated',
      facts: car(900, { minimumRestartInterval: 0 }, { thermal: { resistance: 2, maxTemperature: 240 } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'r-pre', 'thermal/capacitance')],
    },
    {
      name: 'a thermal mass without a way for the heat to go',
      facts: car(4500, { minimumRestartInterval: 0 }, { thermal: { capacitance: 60, maxTemperature: 240 } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'r-pre', 'thermal/resistance')],
    },
    {
      name: 'a rise that never reaches its threshold',
      facts: soundFacts({ rise: { resistorEnergy: figure(null, { reason: 'never' }) } }),
      status: 'not-applicable',
      message: 'endless',
      causedBy: ['precharge-reaches-threshold', 'precharge-reaches-setting', 'precharge-completes-in-time'],
    },
    {
      name: 'no resistor in the rise',
      facts: soundFacts({ rise: { resistor: undefined as never } }),
      status: 'not-applicable',
      message: 'none',
      causedBy: ['precharge-reaches-threshold'],
    },
  ],
};
