import { dischargeContactFault } from '../discharge-contact-fault.js';
import { elementsOf } from '../elements-of.js';
import { judgeDischarge } from '../judge-discharge.js';
import { listOutcome } from '../list-outcome.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'discharge-fail-safe',
    title: 'The discharge closes by itself whenever the shutdown circuit is open',
    rationale:
      'The discharge is needed most when something has failed. A contact that must be driven to close, or that software keeps open, fails together with its supply or its program.',
    parameters: [],
    messages: {
      met: 'The discharge contact ({elements}) is closed at rest and released by the shutdown circuit.',
      permanent: 'The discharge resistor ({resistors}) is connected permanently, with no contact to fail.',
      redundant: 'The link discharges in time without {problems}.',
      violated: 'The discharge does not close by itself with the shutdown circuit open: {problems}.',
      undetermined:
        'Whether the discharge closes by itself with the shutdown circuit open cannot be told without {fields}.',
      none: 'There is no discharge resistor to judge.',
    },
    remedies: {
      release:
        'Use a normally closed contact whose coil the shutdown circuit itself feeds, so that it closes on any loss of supply.',
    },
    inspect:
      'With everything off the discharge contact must read closed; trace its coil to the shutdown circuit’s end.',
  },
  check(facts, ruleset): Outcome {
    const { circuit, topology } = facts;
    const resistors = topology.dischargeResistors;
    const contacts = elementsOf(circuit, topology.dischargeContacts, 'contact');
    if (resistors.length === 0 && contacts.length === 0) {
      return { status: 'not-applicable', message: 'none', causedBy: ['discharge-time'] };
    }
    if (contacts.length === 0) {
      const values = { resistors: resistors.join(', ') };
      return { status: 'met', message: 'permanent', values, evidence: { resistors }, elements: resistors };
    }
    const wrong = contacts.flatMap((contact) => {
      const text = dischargeContactFault(contact);
      return text === undefined ? [] : [{ elements: [contact.id], text }];
    });
    const falls = judgeDischarge(facts, ruleset);
    // A faulty contact never counts as a path, so where the time is kept it is kept without it.
    if (wrong.length > 0 && falls.length > 0 && falls.every(({ status }) => status === 'met')) {
      const faulty = wrong.flatMap(({ elements }) => elements);
      return {
        status: 'met',
        message: 'redundant',
        values: { problems: faulty.join(', ') },
        evidence: { problems: wrong },
        elements: faulty,
      };
    }
    const missing = contacts
      .filter(({ suppliedBy }) => suppliedBy === undefined)
      .map(({ pointer }) => `${pointer}/suppliedBy`);
    return listOutcome(circuit, {
      wrong,
      missing,
      elements: contacts.map(({ id }) => id),
      evidence: { resistors },
      remedy: 'release',
    });
  },
};
