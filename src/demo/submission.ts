import type { Verdict } from '../rules/finding.js';
import type { Report } from '../verify/report.js';

/** One car as the service's catalogue of examples holds it. */
export interface Submission {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
  readonly request: { readonly circuit: { readonly title: string }; readonly ruleset: string };
  /** What a calculation by hand says. */
  readonly expected: {
    readonly verdict: Verdict;
    readonly violated: readonly string[];
    readonly undetermined: readonly string[];
  };
}

/** A car with the service's answer. */
export interface Verified {
  readonly submission: Submission;
  readonly report: Report;
}
