import { type Finding, type Verdict } from '../../rules/finding.js';
import type { VerdictAnswer } from './batch-schemas.js';

/** A verdict with the rules behind it; what is merely a consequence of another finding does not speak for the car. */
export function verdictAnswer(verdict: Verdict, findings: readonly Finding[]): VerdictAnswer {
  const withStatus = (status: Finding['status'], weight: Finding['weight']): Finding[] =>
    findings.filter((finding) => finding.status === status && finding.weight === weight);
  const violated = withStatus('violated', 'rule');
  const undetermined = withStatus('undetermined', 'rule');
  const deciding = violated.length > 0 ? violated : undetermined;
  const first = deciding.find(({ causedBy }) => (causedBy ?? []).length === 0) ?? deciding[0];
  return {
    verdict,
    violated: violated.map(({ rule }) => rule),
    undetermined: undetermined.map(({ rule }) => rule),
    advice: withStatus('violated', 'advice').map(({ rule }) => rule),
    ...(first === undefined ? {} : { message: first.message }),
  };
}
