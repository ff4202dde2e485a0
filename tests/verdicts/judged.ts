import { readCircuit } from '../../src/circuit/read-circuit.js';
import { createFacts } from '../../src/facts/create-facts.js';
import { judge } from '../../src/rules/engine.js';
import type { Finding } from '../../src/rules/finding.js';
import { rulesetById } from '../../src/rules/ruleset-by-id.js';
import type { Circuit } from './wire.js';

/** What the service finds in a circuit under a ruleset; an error where the circuit cannot be read. */
export function judged(circuit: Circuit, rulesetId: string): readonly Finding[] {
  const reading = readCircuit(circuit, '#/circuit');
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  const ruleset = rulesetById(rulesetId);
  if (ruleset === undefined) throw new Error(`no ruleset ${rulesetId}`);
  return judge(createFacts(reading.circuit, ruleset.conditions), ruleset);
}

/** The rules with a status, in order of name. */
export function withStatus(findings: readonly Finding[], status: Finding['status']): string[] {
  return findings
    .filter((finding) => finding.status === status)
    .map(({ rule }) => rule)
    .sort();
}
