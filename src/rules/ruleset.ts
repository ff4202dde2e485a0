import type { Conditions } from '../facts/conditions.js';
import type { RulesetParameters } from './parameters-schema.js';

export type Confirmed = 'read' | 'second-hand' | 'memory' | 'ours';

/** One fact of a rulebook: its value, where it stands, and how sure we are. `ours`: the book is silent, the value is our own. */
export interface ParameterRow {
  readonly value: unknown;
  readonly unit?: string;
  readonly clause?: string;
  readonly confirmed: Confirmed;
  readonly note?: string;
  /** True where an organiser's event set the value. */
  readonly overridden?: boolean;
}

/** A rule in force (`weight: rule`, with its clause) or good practice (`advice`). Absent: not applicable in this ruleset. */
export interface RuleRow {
  readonly rule: string;
  readonly weight: 'rule' | 'advice';
  readonly clauses: readonly string[];
  readonly confirmed: Confirmed;
}

export interface Ruleset {
  readonly id: string;
  readonly revision: string;
  readonly source: { readonly document: string; readonly version: string };
  readonly note?: string;
  /** The known rows by name; any row by string. */
  readonly parameters: Readonly<RulesetParameters> & Readonly<Record<string, ParameterRow>>;
  readonly rules: readonly RuleRow[];
  /** The parameters as the lower floors read them, overrides of an event applied. */
  readonly conditions: Conditions;
}
