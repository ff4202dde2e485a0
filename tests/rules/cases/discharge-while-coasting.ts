import { createFacts } from '../../../src/facts/create-facts.js';
import type { RuleCases } from '../rule-case.js';
import { about, bare, exact, pointerTo, soundCircuit } from '../sound-car.js';
import { collegiate2024, soundFacts, student2020 } from '../sound-facts.js';

/**
 * 4 kΩ and 500 µF, both exact, the meter taken out: 2 s, so the link falls from 400 V to 60 V in 2 s·ln(400/60) = 3.794 s, its
 * relays released at once.
 */
const car = (motor: object | null, changes: Readonly<Record<string, object | null>> = {}) => {
  const released = { releaseTime: 0 };
  return soundCircuit({
    meter: null,
    'c-link': { capacitance: exact(500e-6), esr: undefined },
    'r-dis': { resistance: exact(4000) },
    'k-dis': released,
    'air-pos': released,
    'air-neg': released,
    'k-pre': released,
    ...(motor === null ? {} : { motor: { kind: 'machine', nodes: ['lp', 'tn'], ...motor } }),
    ...changes,
  });
};
const facts = (...parts: Parameters<typeof car>) => createFacts(car(...parts), student2020.conditions);

export const rows: RuleCases = {
  cases: [
    { name: 'no machine', facts: facts(null), status: 'not-applicable', message: 'none' },
    {
      // 1.5 s·ln(240/60) = 2.08 s: the link is slower by itself.
      name: 'a machine that slows down faster than the link falls',
      facts: facts({ backEmf: exact(240), decay: 1.5 }),
      status: 'met',
      message: 'met',
      says: ['c-link falls below 60 V after 3.794 s', 'less than 5 s'],
      elements: ['c-link', 'motor'],
    },
    {
      // 3 s·ln(240/60) = 4.159 s
      name: 'a machine that holds the link up, though not for too long',
      facts: facts({ backEmf: exact(240), decay: 3 }),
      status: 'met',
      message: 'met',
      says: ['4.159 s'],
    },
    {
      // 4 s·ln(240/60) = 5.545 s
      name: 'a machine that coasts for longer',
      facts: facts({ backEmf: exact(240), decay: 4 }),
      status: 'violated',
      message: 'violated',
      says: ['5.545 s', 'AC side is not computed'],
      remedySays: ['above 60 V for 5.545 s'],
      evidence: { limit: 5, unit: 's', machines: ['motor'] },
    },
    {
      // Met at 240 V, but 3.5 s·ln(264/60) = 5.186 s
      name: 'a back-EMF whose stated tolerance decides',
      facts: facts({ backEmf: about(240, 0.1), decay: 3.5 }),
      status: 'violated',
      message: 'violated',
      says: ['5.186 s'],
    },
    {
      // 700 V at top speed, the accumulator 400 V: 2 s·ln(700/60) = 4.913 s.
      name: 'a back-EMF above the accumulator’s voltage, from which the link then starts',
      facts: facts({ backEmf: exact(700), decay: 1 }),
      status: 'met',
      message: 'met',
      says: ['4.913 s'],
    },
    {
      name: 'a machine that cannot hold the link above the limit',
      facts: facts({ backEmf: exact(55) }),
      status: 'met',
      message: 'met',
      says: ['3.794 s'],
    },
    {
      name: 'a machine beyond the disconnect, which feeds nothing once that is open',
      facts: facts({ backEmf: exact(240), decay: 4, nodes: ['tp', 'tn'] }),
      ruleset: collegiate2024,
      status: 'violated',
      message: 'violated',
      says: ['shutdown'],
    },
    {
      name: 'how it slows down not stated',
      facts: facts({ backEmf: exact(240) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(car({ backEmf: exact(240) }), 'motor', 'decay')],
    },
    {
      // 600 µF in 2.4 s: 4.553 s; from 550 V 5.318 s.
      name: 'a capacitance whose assumed tolerance decides',
      facts: facts({ backEmf: exact(550), decay: 1 }, { 'c-link': { capacitance: bare(500e-6), esr: undefined } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(car(null), 'c-link', 'capacitance')],
    },
    {
      name: 'a link that does not discharge even at standstill',
      facts: facts({ backEmf: exact(240), decay: 4 }, { 'r-dis': { resistance: exact(8000) } }),
      status: 'not-applicable',
      message: 'standstill',
      causedBy: ['discharge-time'],
    },
    {
      name: 'a machine but no capacitor',
      facts: soundFacts({ circuit: car({ backEmf: exact(240), decay: 1 }), coasting: [] }),
      status: 'not-applicable',
      message: 'noCapacitor',
    },
  ],
};
