import type { Verified } from './submission.js';

/** Where the service's answer differs from the calculation by hand that the submission carries; empty: nowhere. */
export function surprises(verified: readonly Verified[]): string[] {
  return verified.flatMap(({ submission, report }) => {
    const rulesWith = (status: string): string =>
      report.findings
        .filter((finding) => finding.status === status)
        .map(({ rule }) => rule)
        .sort()
        .join(', ') || 'nothing';
    const pairs = [
      ['verdict', submission.expected.verdict, report.verdict],
      ['violated', submission.expected.violated.join(', ') || 'nothing', rulesWith('violated')],
      ['undetermined', submission.expected.undetermined.join(', ') || 'nothing', rulesWith('undetermined')],
    ] as const;
    return pairs
      .filter(([, expected, actual]) => expected !== actual)
      .map(([what, expected, actual]) => `${submission.id}: ${what}: expected ${expected}, got ${actual}`);
  });
}
