import { type Static, Type } from '@sinclair/typebox';
import { ref } from '../circuit/schema/ref.js';
import { stringEnum } from '../circuit/schema/string-enum.js';
import { judge, verdictOf } from '../rules/engine.js';
import { FindingSchema, VERDICTS } from '../rules/finding.js';
import { type Case, prepare } from './prepare.js';
import { ProvenanceSchema } from './report.js';

export const FindingsAnswerSchema = Type.Object(
  { verdict: stringEnum(VERDICTS), findings: Type.Array(ref(FindingSchema)), provenance: ref(ProvenanceSchema) },
  { $id: 'FindingsAnswer', additionalProperties: true },
);
export type FindingsAnswer = Static<typeof FindingsAnswerSchema>;

/** Every rule judged, and nothing that only a full report needs. */
export function findBreaches(subject: Case): FindingsAnswer {
  const { facts, ruleset, provenance } = prepare(subject);
  const findings = judge(facts, ruleset);
  return { verdict: verdictOf(findings), findings, provenance: provenance() };
}
