import { computeLimits } from '../limits/index.js';
import { judge, verdictOf } from '../rules/engine.js';
import { carTests } from './car-tests/car-tests.js';
import { cautions } from './cautions.js';
import { dischargeAnswers } from './discharge-answer.js';
import { prechargeAnswer } from './precharge-answer.js';
import { type Case, prepare } from './prepare.js';
import type { Report } from './report.js';
import { sequenceAnswer } from './sequence-answer.js';

/**
 * Everything about one circuit under one ruleset.
 * @throws CircuitFault where the circuit cannot be computed for another reason than a loop without resistance
 */
export function verifyCircuit(subject: Case): Report {
  const { facts, ruleset, provenance } = prepare(subject);
  const findings = judge(facts, ruleset);
  const { limits, windows } = computeLimits(facts);
  return {
    verdict: verdictOf(findings),
    findings,
    precharge: prechargeAnswer(facts.rise),
    discharge: dischargeAnswers(facts, ruleset),
    limits: [...limits],
    windows: [...windows],
    carTests: carTests(facts, ruleset),
    sequence: sequenceAnswer(facts.sequence.steps, facts.sequence.source),
    cautions: [...cautions],
    provenance: provenance(),
  };
}
