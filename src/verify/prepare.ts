import type { ResolvedCircuit } from '../circuit/model.js';
import { createFacts } from '../facts/create-facts.js';
import type { Facts } from '../facts/facts.js';
import type { Ruleset } from '../rules/ruleset.js';
import { withOverrides } from '../rules/with-overrides.js';
import type { Event } from './event.js';
import { provenance } from './provenance.js';
import type { Provenance } from './report.js';

/** One circuit to be judged under one ruleset. */
export interface Case {
  readonly circuit: ResolvedCircuit;
  readonly ruleset: Ruleset;
  readonly event?: Event;
}

export interface Prepared {
  readonly facts: Facts;
  /** With the event's overrides in it. */
  readonly ruleset: Ruleset;
  /** A function, since what was assumed is only known once everything wanted has been computed. */
  readonly provenance: () => Provenance;
}

/**
 * The facts of a case under the conditions that hold for it. Nothing is computed until it is asked for.
 * @param further what else of the request shapes the answer, in plain SI
 */
export function prepare({ circuit, ruleset: book, event }: Case, further: object = {}): Prepared {
  const { ruleset, overrides } = withOverrides(book, event);
  const facts = createFacts(circuit, ruleset.conditions);
  return {
    facts,
    ruleset,
    provenance: () =>
      provenance({
        circuit,
        ruleset,
        overrides,
        assumptions: facts.assumptions,
        accuracy: facts.accuracy,
        ...(event === undefined ? {} : { event }),
        further,
      }),
  };
}
