import type { Facts } from '../facts/facts.js';
import type { Ruleset } from './ruleset.js';

/** A value a message can hold: `{actual}` in a template is filled from here. Numbers are SI. */
export type Evidence = Readonly<Record<string, unknown>>;

/** What a check returns; the engine adds the id, title, weight, clauses and the message text. */
export interface Outcome {
  readonly status: 'met' | 'violated' | 'undetermined' | 'not-applicable';
  /** Key of `meta.messages`. */
  readonly message: string;
  /** Fills the message's and the remedy's `{placeholders}`. */
  readonly values?: Readonly<Record<string, string | number>>;
  readonly evidence?: Evidence;
  readonly elements?: readonly string[];
  /** Key of `meta.remedies`; required where violated. */
  readonly remedy?: string;
  /** JSON pointers; required and not empty where undetermined. */
  readonly missing?: readonly string[];
  readonly causedBy?: readonly string[];
}

export interface RuleMeta {
  /** Equals the file's name. */
  readonly id: string;
  readonly title: string;
  /** Why the rule exists, for a team that meets it the first time. */
  readonly rationale: string;
  /** Names of the ruleset parameters that it reads. */
  readonly parameters: readonly string[];
  /** Templates; each a sentence that ends with a full stop. */
  readonly messages: Readonly<Record<string, string>>;
  readonly remedies: Readonly<Record<string, string>>;
  /** What to look at on the real car. */
  readonly inspect: string;
}

/**
 * What every other rule in force says of some facts, rule by rule in the registry's order, each judged when it is asked for.
 * Rules that compare others are left out, so that none of them judges itself.
 */
export type JudgeOthers = (facts: Facts) => Iterable<Outcome>;

export interface Rule {
  readonly meta: RuleMeta;
  /** True where the check asks what other rules say. */
  readonly comparesOthers?: true;
  /** Pure. Never throws for what a circuit may hold. */
  readonly check: (facts: Facts, ruleset: Ruleset, others: JudgeOthers) => Outcome;
}
