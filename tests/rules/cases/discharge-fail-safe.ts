import type { RuleCases } from '../rule-case.js';
import { pointerTo, soundCircuit } from '../sound-car.js';
import { fallVoltage, slowTime, soundFacts, soundFalls } from '../sound-facts.js';

const slow = soundFalls({ shutdown: fallVoltage(slowTime(60)) });
const contact = (change: object) => soundFacts({ circuit: soundCircuit({ 'k-dis': change }), falls: slow });

export const rows: RuleCases = {
  cases: [
    { name: 'a sound car', facts: soundFacts(), status: 'met', message: 'met', says: ['k-dis'] },
    {
      name: 'a resistor connected for good',
      facts: soundFacts({ topology: { dischargeContacts: [] } }),
      status: 'met',
      message: 'permanent',
      says: ['r-dis'],
    },
    {
      name: 'a normally open contact',
      facts: contact({ rest: 'open' }),
      status: 'violated',
      message: 'violated',
      says: ['k-dis is open at rest'],
      elements: ['k-dis'],
      remedySays: ['normally closed'],
    },
    {
      name: 'a contact with a supply of its own',
      facts: contact({ suppliedBy: 'independent' }),
      status: 'violated',
      message: 'violated',
    },
    {
      name: 'a contact that software keeps open',
      facts: contact({ suppliedBy: 'controller' }),
      status: 'violated',
      message: 'violated',
      says: ['software'],
    },
    {
      name: 'a contact that is not needed',
      facts: soundFacts({ circuit: soundCircuit({ 'k-dis': { rest: 'open' } }) }),
      status: 'met',
      message: 'redundant',
      says: ['without k-dis'],
    },
    {
      name: 'a supply not stated',
      facts: contact({ suppliedBy: undefined }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'k-dis', 'suppliedBy')],
    },
    {
      name: 'no discharge',
      facts: soundFacts({ topology: { dischargeContacts: [], dischargeResistors: [] } }),
      status: 'not-applicable',
      message: 'none',
      causedBy: ['discharge-time'],
    },
  ],
};
