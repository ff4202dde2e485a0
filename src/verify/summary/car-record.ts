import type { LimitRecord } from '../../limits/limit-record.js';
import type { Finding, Verdict } from '../../rules/finding.js';

/** What the summary of an event keeps of one car. */
export interface CarRecord {
  readonly verdict: Verdict;
  readonly findings: ReadonlyArray<Pick<Finding, 'rule' | 'title' | 'status' | 'weight' | 'missing' | 'causedBy'>>;
  /** Limits that are satisfied, the closest first; at most `MARGINS_KEPT`. */
  readonly margins: readonly Margin[];
}

export interface Margin {
  readonly limit: string;
  readonly element?: string;
  readonly unit: string;
  readonly present: number;
  /** The bound on the nominal value. */
  readonly nominal: number;
  /** Relative, 0 or above. */
  readonly margin: number;
}

/** Of one car: enough to find an event's closest margins without keeping every one. */
const MARGINS_KEPT = 5;

export function carRecord(verdict: Verdict, findings: readonly Finding[], limits: readonly LimitRecord[]): CarRecord {
  return {
    verdict,
    findings: findings.map(({ rule, title, status, weight, missing, causedBy }) => ({
      rule,
      title,
      status,
      weight,
      ...(missing === undefined ? {} : { missing }),
      ...(causedBy === undefined ? {} : { causedBy }),
    })),
    margins: limits
      .flatMap(satisfiedMargin)
      .sort((a, b) => a.margin - b.margin)
      .slice(0, MARGINS_KEPT),
  };
}

function satisfiedMargin({ name, element, unit, present, nominal, margin, satisfied }: LimitRecord): Margin[] {
  // Settings of the control have no unit; a setting is no part that drifts, and is close to its bound on purpose.
  if (satisfied !== true || unit === '' || present === null || nominal === null || margin === null) return [];
  return [{ limit: name, ...(element === undefined ? {} : { element }), unit, present, nominal, margin }];
}
