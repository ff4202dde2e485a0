import type { ResolvedCircuit } from '../../circuit/model.js';
import type { Ruleset } from '../../rules/ruleset.js';
import type { Event } from '../event.js';
import { verifyCircuit } from '../verify-circuit.js';
import { compareFindings } from './compare-findings.js';
import { compareLimits } from './compare-limits.js';
import { compareParts } from './compare-parts.js';
import type { Comparison } from './compare-schemas.js';

export interface Revisions {
  readonly before: ResolvedCircuit;
  readonly after: ResolvedCircuit;
  readonly ruleset: Ruleset;
  readonly event?: Event;
}

/**
 * What changed from one revision of a car to the next, both judged under one ruleset.
 * @throws CircuitFault where one of them cannot be computed
 */
export function compareCircuits({ before, after, ruleset, event }: Revisions): Comparison {
  const common = { ruleset, ...(event === undefined ? {} : { event }) };
  const old = verifyCircuit({ circuit: before, ...common });
  const now = verifyCircuit({ circuit: after, ...common });
  return {
    verdict: { before: old.verdict, after: now.verdict },
    findings: compareFindings(old.findings, now.findings),
    limits: compareLimits(old.limits, now.limits),
    ...compareParts(before, after),
    provenance: { before: old.provenance, after: now.provenance },
  };
}
