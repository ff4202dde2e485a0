import type { Facts } from '../../src/facts/facts.js';
import type { Outcome } from '../../src/rules/rule.js';
import type { Ruleset } from '../../src/rules/ruleset.js';

/** One row of a rule's table of cases. */
export interface RuleCase {
  readonly name: string;
  readonly facts: Facts;
  /** `student-ev-2020` where not given. */
  readonly ruleset?: Ruleset;
  readonly status: Outcome['status'];
  /** Key of the rule's messages. */
  readonly message: string;
  /** What the filled message or remedy must hold. */
  readonly says?: readonly string[];
  readonly remedySays?: readonly string[];
  readonly missing?: readonly string[];
  readonly elements?: readonly string[];
  readonly causedBy?: readonly string[];
  /** What the evidence must hold, key by key. */
  readonly evidence?: Readonly<Record<string, unknown>>;
}

export interface RuleCases {
  readonly cases: readonly RuleCase[];
  /** Why the rule can never be undetermined; absent where it can. */
  readonly neverUndetermined?: string;
}
