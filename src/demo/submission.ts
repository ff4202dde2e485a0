import type { Verdict } from '../rules/finding.js';
import type { Report } from '../verify/report.js';

/** One car: an example of the service's catalogue, or a row of the form. */
export interface Submission {
  readonly id: string;
  readonly title: string;
  readonly summary: string;
  readonly request: {
    readonly circuit: { readonly title: string };
    readonly ruleset: string;
    /** The organiser's conditions. */
    readonly event?: object;
  };
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
