import { createFacts } from '../../../src/facts/create-facts.js';
import type { Facts } from '../../../src/facts/facts.js';
import { withOverrides } from '../../../src/rules/with-overrides.js';
import { figure, timeFigure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { about, exact, soundCircuit } from '../sound-car.js';
import { collegiate2024, fall, fallVoltage, slowTime, soundFacts, soundFalls, student2020 } from '../sound-facts.js';

const everywhere = (seconds: number, parts = {}) => {
  const voltage = fallVoltage(slowTime(seconds, parts));
  return soundFalls({
    shutdown: voltage,
    'disconnect-open': voltage,
    'container-removed': voltage,
    'all-separated': voltage,
  });
};

/** 600 V to 60 V through R into 500 µF takes R·C·ln 10: 2.302585 time constants (ln 10). */
function singleResistor(ohms: number, tolerance: number): Facts {
  const seconds = ohms * (1 + tolerance) * 500e-6 * Math.LN10;
  return soundFacts({
    circuit: soundCircuit({ 'r-dis': { resistance: about(ohms, tolerance) } }),
    openCircuitVoltage: figure(600),
    falls: everywhere(seconds),
    vary: (_, value) => singleResistor(Number(value), 0),
  });
}

const nothing = (changes = {}) =>
  fallVoltage({
    ...slowTime(0),
    timeToLimit: timeFigure(null),
    timeToLimitOtherClock: timeFigure(null),
    path: [],
    ...changes,
  });
const oneReading = (own: number, other: number) =>
  soundFacts({
    falls: soundFalls({
      shutdown: fallVoltage({ timeToLimit: timeFigure(own), timeToLimitOtherClock: timeFigure(other) }),
    }),
  });

export const rows: RuleCases = {
  cases: [
    {
      name: 'a sound car',
      facts: soundFacts(),
      status: 'met',
      message: 'met',
      says: ['4.4 s', 'less than 5 s', 'below 60 V'],
    },
    {
      // Largest time constant for 5 s from 600 V: 2.1715 s, so 4343 Ω with 500 µF.
      name: '4.7 kΩ on 500 µF at 600 V',
      facts: singleResistor(4700, 0),
      status: 'violated',
      message: 'violated',
      says: ['5.411 s', '5 s'],
      elements: ['c-link', 'r-dis'],
      remedySays: ['4.343 kΩ', '3.3 kΩ'],
    },
    {
      // 4.75 s / (500 µF · ln(400/60)) = 5007.6 Ω for both, 0.25 s being the relays’: 1/(1/5007.6 − 1/20 000) = 6680 Ω.
      name: '10 kΩ beside a bleed resistor of 20 kΩ, which takes its share',
      facts: createFacts(
        soundCircuit({
          'r-dis': { resistance: exact(10_000) },
          'c-link': { capacitance: exact(500e-6) },
          'r-bleed': { kind: 'resistor', role: 'bleed', nodes: ['lp', 'tn'], resistance: exact(20_000) },
        }),
        student2020.conditions,
      ),
      status: 'violated',
      message: 'violated',
      remedySays: ['Reduce r-dis to a nominal value below 6.68 kΩ'],
    },
    { name: '4.3 kΩ on 500 µF at 600 V', facts: singleResistor(4300, 0), status: 'met', message: 'met' },
    {
      name: 'exactly 5 s where less is wanted',
      facts: soundFacts({ falls: everywhere(5) }),
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'exactly 5 s where 5 s are allowed',
      facts: soundFacts({ falls: everywhere(5) }),
      ruleset: collegiate2024,
      status: 'met',
      message: 'met',
      says: ['to 60 V after 5 s; at most 5 s'],
    },
    {
      name: '5.00004 s, told apart from 5 s',
      facts: soundFacts({ falls: everywhere(5.00004) }),
      status: 'violated',
      message: 'violated',
      says: ['5.00004 s'],
    },
    {
      name: 'only the reading from the shutdown circuit fails',
      facts: oneReading(5.1, 4.9),
      status: 'undetermined',
      message: 'clock',
      says: ['5.1 s', '4.9 s'],
      missing: ['#/event/parameters/dischargeClock'],
    },
    {
      name: 'only the reading from the relays fails, whichever is the ruleset’s own',
      facts: oneReading(4.9, 5.1),
      status: 'undetermined',
      message: 'clock',
      missing: ['#/event/parameters/dischargeClock'],
    },
    {
      name: 'an organiser who has said which reading counts',
      facts: oneReading(5.1, 4.9),
      ruleset: withOverrides(student2020, { parameters: { dischargeClock: 'shutdown-opens' } }).ruleset,
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'a capacitance without a tolerance that decides',
      facts: soundFacts({
        falls: everywhere(4.5, {
          max: 5.4,
          stated: { min: 4.5, max: 4.5 },
          bare: ['#/circuit/elements/7/capacitance'],
        }),
      }),
      status: 'undetermined',
      message: 'undetermined',
      says: ['capacitance of c-link', '5.4 s'],
      missing: ['#/circuit/elements/7/capacitance'],
    },
    {
      name: 'a fall that cannot be computed',
      facts: soundFacts({
        falls: [
          fall(
            'shutdown',
            fallVoltage({
              timeToLimit: timeFigure(null, { reason: 'ideal-loop', missing: ['#/circuit/elements/7/esr'] }),
            }),
          ),
        ],
      }),
      status: 'undetermined',
      message: 'notComputable',
      missing: ['#/circuit/elements/7/esr'],
    },
    {
      name: 'a state that the ruleset does not name',
      facts: soundFacts({ falls: [fall('shutdown'), fall('container-removed', nothing(), { required: false })] }),
      status: 'met',
      message: 'met',
    },
    {
      // 4.75 s / (550 µF · ln(400/60) · 1.1) = 4.138 kΩ, with a margin of 20 %: 3.3 kΩ.
      name: 'no discharge at all',
      facts: soundFacts({
        topology: { dischargeResistors: [], dischargeContacts: [] },
        falls: [fall('shutdown', nothing())],
      }),
      status: 'violated',
      message: 'noPath',
      says: ['nothing discharges the capacitor c-link'],
      remedySays: ['3.3 kΩ'],
    },
    {
      name: 'a discharge lost with the disconnect',
      facts: soundFacts({ falls: soundFalls({ 'disconnect-open': nothing() }) }),
      status: 'violated',
      message: 'noPath',
      says: ['disconnect-open'],
      causedBy: ['discharge-stays-with-car'],
      remedySays: ['named as its cause'],
    },
    {
      name: 'a discharge contact with a supply of its own',
      facts: soundFacts({
        circuit: soundCircuit({ 'k-dis': { suppliedBy: 'independent' } }),
        falls: soundFalls({ shutdown: nothing(), 'disconnect-open': nothing() }),
      }),
      status: 'violated',
      message: 'noPath',
      causedBy: ['discharge-fail-safe'],
    },
    {
      name: 'an isolation relay that holds the accumulator on the link',
      facts: soundFacts({
        circuit: soundCircuit({ 'air-pos': { suppliedBy: 'independent' } }),
        falls: [fall('shutdown', nothing({ path: ['k-dis', 'r-dis'] }))],
      }),
      status: 'violated',
      message: 'never',
      causedBy: ['precharge-supply'],
    },
    {
      name: 'plug pins that stay live',
      facts: soundFacts({ falls: [fall('container-removed', nothing({ id: 'pins', kind: 'plug-pins' }))] }),
      status: 'violated',
      message: 'noPath',
      says: ['the plug (lp, tn)'],
      elements: [],
    },
    {
      name: 'no capacitor',
      facts: soundFacts({ falls: [fall('shutdown', null)] }),
      status: 'not-applicable',
      message: 'nothing',
    },
  ],
};
