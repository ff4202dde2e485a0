import { readCircuit } from '../../src/circuit/read-circuit.js';
import { readEvent } from '../../src/circuit/read-event.js';
import { createFacts } from '../../src/facts/create-facts.js';
import type { Facts } from '../../src/facts/facts.js';
import { rulesetById } from '../../src/rules/ruleset-by-id.js';
import type { Ruleset } from '../../src/rules/ruleset.js';
import { withOverrides } from '../../src/rules/with-overrides.js';
import { examples } from '../examples/read-examples.js';

export interface ExampleCase {
  readonly id: string;
  readonly facts: Facts;
  readonly ruleset: Ruleset;
}

/** The example cars under the rulesets and events that they name. */
export const exampleCases: readonly ExampleCase[] = examples.map(({ example: { id, request } }) => {
  const reading = readCircuit(request.circuit, '#/circuit');
  const book = rulesetById(request.ruleset);
  if ('faults' in reading || book === undefined) throw new Error(`the example ${id} cannot be read`);
  const event = request.event === undefined ? undefined : readEvent(request.event, '#/event');
  if (event !== undefined && 'faults' in event) throw new Error(`the event of ${id} cannot be read`);
  const { ruleset } = withOverrides(book, event?.event);
  return { id, facts: createFacts(reading.circuit, ruleset.conditions), ruleset };
});
