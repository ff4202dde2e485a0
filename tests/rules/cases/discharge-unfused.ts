import type { FallVoltage } from '../../../src/facts/facts.js';
import { timeFigure } from '../figures.js';
import type { RuleCases } from '../rule-case.js';
import { soundCircuit } from '../sound-car.js';
import { fall, fallVoltage, slowTime, soundFacts } from '../sound-facts.js';

const never = fallVoltage({ timeToLimit: timeFigure(null), timeToLimitOtherClock: timeFigure(null), path: [] });
const spoilt = { max: 6, stated: { min: 4, max: 4 }, bare: ['#/circuit/elements/9/resistance'] };
const fuses = (worstWithoutFuses: FallVoltage, whole: FallVoltage = fallVoltage()) =>
  soundFacts({
    circuit: soundCircuit({ 'k-dis': { nodes: ['lf', 'dm'] }, 'fuse-dis': { kind: 'fuse', nodes: ['lp', 'lf'] } }),
    falls: [fall('shutdown', whole, { worstWithoutFuses })],
  });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['4.4 s'] },
    {
      name: 'a fuse in the discharge',
      facts: fuses(never),
      status: 'violated',
      message: 'never',
      says: ['fuse-dis', 'c-link', 'shutdown'],
      elements: ['fuse-dis'],
      remedySays: ['capacitor’s side'],
    },
    {
      name: 'a fuse without which a bleed resistor is left',
      facts: fuses(fallVoltage(slowTime(30))),
      status: 'violated',
      message: 'violated',
      says: ['30 s'],
    },
    {
      name: 'a path without a fuse about which tolerances decide',
      facts: fuses(fallVoltage(slowTime(4, spoilt))),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/elements/9/resistance'],
    },
    {
      name: 'a time about which tolerances decide, and which no fuse changes',
      facts: fuses(fallVoltage(slowTime(4, spoilt)), fallVoltage(slowTime(4, spoilt))),
      status: 'met',
      message: 'met',
    },
    {
      name: 'a fuse in a path about which tolerances decide',
      facts: fuses(never, fallVoltage(slowTime(4, spoilt))),
      status: 'undetermined',
      message: 'undetermined',
      missing: ['#/circuit/elements/9/resistance'],
    },
    {
      name: 'no path that is quick enough',
      facts: fuses(never, never),
      status: 'not-applicable',
      message: 'noDischarge',
      causedBy: ['discharge-time'],
    },
    {
      name: 'no capacitor',
      facts: soundFacts({ falls: [fall('shutdown', null)] }),
      status: 'not-applicable',
      message: 'nothing',
    },
  ],
};
