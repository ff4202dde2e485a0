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
 * @param sensitive whether figures shall say which parts move them most
 * @throws CircuitFault where the circuit cannot be computed for another reason than a loop without resistance
 */
export function verifyCircuit(subject: Case, sensitive = false): Report {
  const { facts, ruleset, provenance } = prepare(subject, sensitive ? { sensitivities: true } : {});
  const findings = judge(facts, ruleset);
  const { limits, windows } = computeLimits(facts);
  return {
    verdict: verdictOf(findings),
    findings,
    precharge: prechargeAnswer(facts.rise, sensitive ? facts.rise.singleMoves() : undefined),
    discharge: dischargeAnswers(facts, ruleset, sensitive),
    limits: [...limits],
    windows: [...windows],
    carTests: carTests(facts, ruleset),
    sequence: sequenceAnswer(facts.sequence.steps, facts.sequence.source),
    cautions: [...cautions],
    provenance: provenance(),
  };
}
