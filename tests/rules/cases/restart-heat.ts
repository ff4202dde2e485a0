import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

/** @param hot °C that the starts of the case come to; what it is asked for must be those starts. */
const warm = (hot: number, starts: readonly [number, number], precharge: object = {}) =>
  soundFacts({
    circuit: soundCircuit({}, { precharge }),
    rise: {
      resistorEnergy: figure(4700),
      attemptsPeakTemperature: (...asked) => figure(asked.join() === starts.join() ? hot : Number.NaN),
    },
  });

const unknown = (energy: number, change: object, precharge: object = { minimumRestartInterval: 0 }) =>
  soundFacts({
    circuit: soundCircuit({ 'r-pre': change }, { precharge }),
    rise: { resistorEnergy: figure(energy) },
  });

export const rows: RuleCases = {
  cases: [
    {
      name: 'a sound car',
      facts: soundFacts(),
      status: 'met',
      message: 'warm',
      says: ['r-pre reaches 41.9 °C', 'started every 60 s', 'stands 240 °C'],
    },
    {
      name: 'starts every 60 s for ever that come to 239 °C',
      facts: warm(239, [Infinity, 60]),
      status: 'met',
      message: 'warm',
    },
    {
      name: 'starts every 60 s for ever that come to 241 °C',
      facts: warm(241, [Infinity, 60]),
      status: 'violated',
      message: 'violated',
      says: ['241 °C', 'only 240 °C'],
      remedySays: ['4.7 kJ'],
      elements: ['r-pre'],
      evidence: { actual: 241, limit: 240, unit: '°C' },
    },
    {
      name: 'as often as the ruleset’s repeats where no interval is stated',
      facts: warm(250, [3, 5], { minimumRestartInterval: undefined }),
      status: 'violated',
      message: 'violated',
      says: ['started 3 times within 15 s', '250 °C'],
    },
    {
      name: 'a temperature that tolerances decide about',
      facts: soundFacts({
        rise: {
          attemptsPeakTemperature: () =>
            figure(230, { max: 250, stated: { min: 230, max: 239 }, bare: ['#/circuit/elements/7/capacitance'] }),
        },
      }),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/elements/7/capacitance'],
    },
    {
      // The overload rating holds 5 · 100 W · 5 s = 2.5 kJ, so 833 J of three.
      name: 'an overload rating alone, three starts of 800 J',
      facts: unknown(800, { thermal: undefined }),
      status: 'met',
      message: 'met',
      says: ['800 J', '833.3 J'],
      evidence: { actual: 800, unit: 'J' },
    },
    {
      name: 'a thermal mass not stated',
      facts: unknown(900, { thermal: { resistance: 2, maxTemperature: 240 } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'r-pre', 'thermal/capacitance')],
    },
    {
      // All three kept: 3 · 3.9 kJ in 60 J/K are 195 K of the 200 K there are.
      name: 'a thermal mass that stands all of it without a way for the heat to go',
      facts: unknown(3900, { thermal: { capacitance: 60, maxTemperature: 240 } }),
      status: 'met',
      message: 'met',
      says: ['4 kJ'],
    },
    {
      name: 'a thermal mass that does not, without a way for the heat to go',
      facts: unknown(4500, { thermal: { capacitance: 60, maxTemperature: 240 } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'r-pre', 'thermal/resistance')],
    },
    {
      name: 'starts without end and without a way for the heat to go',
      facts: unknown(44, { thermal: { capacitance: 60, maxTemperature: 240 } }, {}),
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
      facts: soundFacts({ rise: { resistor: undefined } }),
      status: 'not-applicable',
      message: 'none',
      causedBy: ['precharge-reaches-threshold'],
    },
  ],
};
