import { CircuitFault } from '../../circuit/fault.js';
import type { Contact, ResolvedCircuit } from '../../circuit/model.js';
import { createFacts } from '../../facts/create-facts.js';
import type { Facts } from '../../facts/facts.js';
import { withContactBridged, withContactRemoved } from '../altered-circuits.js';
import { listOutcome } from '../list-outcome.js';
import type { JudgeOthers, Outcome, Rule } from '../rule.js';

/** Contacts tried at most: each costs as much as judging the circuit once or twice more. */
const MOST_TRIED = 6;

interface Way {
  readonly how: string;
  readonly alter: (circuit: ResolvedCircuit, contact: Contact) => ResolvedCircuit | undefined;
}

const WAYS: readonly Way[] = [
  { how: 'can be taken out', alter: withContactRemoved },
  { how: 'can be bridged', alter: withContactBridged },
];

export const rule: Rule = {
  meta: {
    id: 'simplicity',
    title: 'Every contact has something to do',
    rationale:
      'Each contact can weld, stick or lose its supply, and each is one more thing to be understood and inspected. One on which nothing that is judged depends is better left out.',
    parameters: [],
    messages: {
      met: 'Every contact beside the isolation, pre-charge and discharge contacts ({elements}) changes a finding when it is bridged or taken out.',
      violated: 'A contact could be left out without changing any other finding: {problems}.',
      undetermined:
        'Whether a contact could be left out without changing any other finding cannot be told without {fields}.',
      tooMany:
        'There are too many contacts beside the isolation, pre-charge and discharge contacts to try each: {elements} were tried, and each changes a finding; {notTried} were not tried.',
      violatedSome:
        'A contact could be left out without changing any other finding: {problems}. There are too many to try each: {notTried} were not tried.',
      undeterminedSome:
        'Whether a contact could be left out without changing any other finding cannot be told without {fields}. There are too many to try each: {notTried} were not tried.',
      none: 'There is no contact beside the isolation, pre-charge and discharge contacts.',
    },
    remedies: {
      simplify: 'Leave the contact out, or say in its label what it is for: what is judged here does not need it.',
    },
    inspect: 'Ask what each contact beside the isolation, pre-charge and discharge contacts is for.',
  },
  comparesOthers: true,
  check(facts, _ruleset, others): Outcome {
    const { circuit } = facts;
    const contacts = otherContacts(facts);
    if (contacts.length === 0) return { status: 'not-applicable', message: 'none' };
    const tried = contacts.slice(0, MOST_TRIED);
    const notTried = contacts.slice(MOST_TRIED).map(({ id }) => id);
    const base = [...others(facts)];
    const trials = tried.map((contact) => ({ contact, ...tryWithout(facts, contact, base, others) }));
    const elements = tried.map(({ id }) => id);
    const outcome = listOutcome(circuit, {
      wrong: trials.flatMap(({ contact: { id }, how }) =>
        how === undefined ? [] : [{ elements: [id], text: `${id} ${how}` }],
      ),
      missing: trials.flatMap(({ missing }) => missing),
      elements,
      evidence: { tried: elements, notTried },
      values: { notTried: notTried.join(', ') },
      remedy: 'simplify',
    });
    if (notTried.length === 0) return outcome;
    if (outcome.status !== 'met') return { ...outcome, message: `${outcome.message}Some` };
    return { ...outcome, status: 'undetermined', message: 'tooMany', missing: [`${circuit.pointer}/elements`] };
  },
};

function otherContacts({ circuit, topology }: Facts): readonly Contact[] {
  const working = new Set([...topology.isolationRelays, ...topology.prechargeRelays, ...topology.dischargeContacts]);
  return circuit.elements.filter(
    (element): element is Contact => element.kind === 'contact' && !working.has(element.id),
  );
}

interface Trial {
  /** What can be done with the contact; absent: nothing surely. */
  readonly how?: string;
  /** Pointers without which that cannot be told. */
  readonly missing: readonly string[];
}

function tryWithout(facts: Facts, contact: Contact, base: readonly Outcome[], others: JudgeOthers): Trial {
  const missing: string[] = [];
  for (const { how, alter } of WAYS) {
    const altered = alter(facts.circuit, contact);
    if (altered === undefined) continue;
    const open = openDifferences(base, others, createFacts(altered, facts.conditions));
    if (open?.length === 0) return { how, missing: [] };
    missing.push(...(open ?? []));
  }
  return { missing };
}

/**
 * Pointers of what is open on either side where no rule says otherwise of the altered circuit; none: every rule says the same
 * for sure. Undefined as soon as a rule surely says otherwise; the rules after it are not judged.
 */
function openDifferences(base: readonly Outcome[], others: JudgeOthers, altered: Facts): string[] | undefined {
  const missing: string[] = [];
  let index = 0;
  try {
    for (const after of others(altered)) {
      const before = base[index];
      index += 1;
      const open = [before, after].filter((outcome) => outcome?.status === 'undetermined');
      if (open.length === 0 && before?.status !== after.status) return undefined;
      missing.push(...open.flatMap((outcome) => outcome?.missing ?? []));
    }
  } catch (error) {
    // A circuit that cannot be computed without the contact needs it.
    if (error instanceof CircuitFault) return undefined;
    throw error;
  }
  return missing;
}
