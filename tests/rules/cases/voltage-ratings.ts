import type { RuleCases } from '../rule-case.js';
import { about, exact, pointerTo, soundCircuit } from '../sound-car.js';
import { figure } from '../figures.js';
import { fall, soundFacts } from '../sound-facts.js';

const part = (id: string, change: object) => soundFacts({ circuit: soundCircuit({ [id]: change }) });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['400 V', 'c-link'] },
    {
      name: 'a capacitor of 350 V',
      facts: part('c-link', { ratedVoltage: 350 }),
      status: 'violated',
      message: 'violated',
      says: ['c-link is rated 350 V and can have 400 V'],
      elements: ['c-link'],
      remedySays: ['500 V'],
    },
    {
      name: 'a fuse for 32 V',
      facts: part('fuse-main', { ratedDcVoltage: 32 }),
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'a disconnect for 300 V',
      facts: part('hvd', { ratedVoltage: 300 }),
      status: 'violated',
      message: 'violated',
    },
    {
      // √(400²/950 · 950) = 400 V
      name: 'a pre-charge resistor for 350 V',
      facts: part('r-pre', { ratings: { voltage: 350 } }),
      status: 'violated',
      message: 'violated',
      says: ['r-pre is rated 350 V and can have 400 V'],
    },
    {
      name: 'a second capacitor on a cable, of 350 V',
      facts: soundFacts({
        circuit: soundCircuit({
          cable: { kind: 'resistor', nodes: ['lp', 'ip'], role: 'other', resistance: about(0.005, 0.1) },
          'c-2': { kind: 'capacitor', nodes: ['ip', 'tn'], capacitance: about(1e-4, 0.1), ratedVoltage: 350 },
        }),
        topology: { vehicleCapacitors: ['c-2', 'c-link'] },
      }),
      status: 'violated',
      message: 'violated',
      says: ['c-2 is rated 350 V and can have 400 V'],
    },
    {
      name: 'a capacitor that is not across the link, rated for less than it gets to',
      facts: part('c-link', { nodes: ['lp', 'dm'], ratedVoltage: 10 }),
      status: 'violated',
      message: 'violated',
      says: ['c-link is rated 10 V and can have 400 V'],
    },
    {
      name: 'a capacitor that is not across the link and never gets to what it is rated',
      facts: {
        ...part('c-link', { nodes: ['lp', 'dm'], ratedVoltage: 300 }),
        rise: { ...soundFacts().rise, highestVoltage: () => figure(200, { min: 180, max: 250 }) },
        falls: [{ ...fall('shutdown'), voltageAfter: () => figure(210, { min: 190, max: 260 }) }],
      },
      status: 'met',
      message: 'met',
    },
    {
      name: 'a machine that turns faster than the accumulator’s voltage needs',
      facts: soundFacts({
        circuit: soundCircuit({
          motor: { kind: 'machine', nodes: ['lp', 'tn'], backEmf: exact(520), decay: 10, resistance: exact(0.1) },
          'c-link': { ratedVoltage: 450 },
        }),
      }),
      status: 'violated',
      message: 'violated',
      says: ['c-link is rated 450 V and can have 520 V'],
      remedySays: ['650 V'],
    },
    {
      name: 'a rating not stated',
      facts: part('hvd', { ratedVoltage: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'hvd', 'ratedVoltage')],
    },
    {
      name: 'no part that has such a rating',
      facts: soundFacts({
        circuit: soundCircuit({ 'fuse-main': null, hvd: null, 'c-link': null, 'r-pre': null, 'r-dis': null }),
      }),
      status: 'not-applicable',
      message: 'none',
    },
  ],
};
