import { figure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { bare, pointerTo, soundCircuit } from '../sound-car.js';
import { soundFacts } from '../sound-facts.js';

const volts = (nominal: number, max: number) => soundFacts({ openCircuitVoltage: figure(nominal, { max }) });
const pointer = pointerTo(soundCircuit(), 'acc', 'voltage');

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['400 V', '600 V'] },
    { name: 'exactly 600 V', facts: volts(518, 600), status: 'met', message: 'met' },
    {
      name: '604.8 V: 144 cells of 4.2 V',
      facts: volts(518, 604.8),
      status: 'violated',
      message: 'violated',
      says: ['604.8 V', '600 V'],
      elements: ['acc'],
      remedySays: ['fewer cells'],
    },
    {
      name: 'a bare voltage, of which the full value is not known',
      facts: soundFacts({ circuit: soundCircuit({ acc: { voltage: bare(518) } }), openCircuitVoltage: figure(518) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointer],
    },
    {
      name: 'a bare voltage above the limit already',
      facts: soundFacts({ circuit: soundCircuit({ acc: { voltage: bare(620) } }), openCircuitVoltage: figure(620) }),
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'a voltage that cannot be computed',
      facts: soundFacts({ openCircuitVoltage: figure(null, { reason: 'not-stated', missing: [pointer] }) }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointer],
    },
  ],
};
