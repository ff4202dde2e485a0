import type { Facts } from '../facts/facts.js';
import type { ScalarForm } from './closed-forms/scalar-form.js';
import type { LimitRecord } from './limit-record.js';

export interface LimitMeta {
  /** Equals the file's name. */
  readonly name: string;
  readonly title: string;
  readonly unit: string;
  readonly bound: 'min' | 'max';
  /** The rule it serves. */
  readonly rule: string;
  /** The formula in words. */
  readonly formula: string;
  readonly sources: readonly string[];
}

/** A limit's record but for what only a comparison with the other limits tells. */
export type OneLimit = Omit<LimitRecord, 'binding'>;

export interface Limit {
  readonly meta: LimitMeta;
  /** One record for each part it bounds; empty where the circuit has no such part. Pure. */
  readonly compute: (facts: Facts) => readonly OneLimit[];
  /** The textbook form of the same limit, from scalars alone. */
  readonly fromScalars: ScalarForm;
}
