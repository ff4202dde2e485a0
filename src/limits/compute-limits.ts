import type { Facts } from '../facts/facts.js';
import { notComputable } from '../facts/figures/not-computable.js';
import { computeWindows } from './compute-windows.js';
import { ANY_PART } from './judgement.js';
import type { Limit, OneLimit } from './limit.js';
import type { LimitRecord, WindowRecord } from './limit-record.js';
import { limits } from './limits.js';
import { markBinding } from './mark-binding.js';
import { recordOf } from './record-of.js';
import { forgetFigures } from './seen-figures.js';

/** Every limit on every part of a circuit, and the window that they leave for each part of the two circuits. Pure. */
export function computeLimits(facts: Facts): { limits: LimitRecord[]; windows: WindowRecord[] } {
  forgetFigures(facts);
  const records = markBinding(limits.flatMap((limit) => computed(limit, facts)).map((record) => placed(record, facts)));
  const windows = computeWindows(facts, records);
  forgetFigures(facts);
  return { limits: records, windows };
}

/** One limit's records; a single open one, of no part, where a figure cannot be computed. */
function computed({ meta, compute }: Limit, facts: Facts): readonly OneLimit[] {
  try {
    return compute(facts);
  } catch (error) {
    const refused = notComputable(facts.circuit, error);
    if (refused === undefined) throw error;
    const { missing } = refused;
    const judgement = { satisfied: null, missing, notComputable: true };
    const none = { value: null, nominal: null, present: null };
    return [recordOf({ meta, outcome: 'not-stated', ...none, judgement, basis: meta.formula })];
  }
}

/** With the place of this circuit's parts for that of any. */
function placed(record: OneLimit, { circuit }: Facts): OneLimit {
  if (record.missing?.includes(ANY_PART) !== true) return record;
  const missing = record.missing.map((pointer) => (pointer === ANY_PART ? `${circuit.pointer}/elements` : pointer));
  return { ...record, missing };
}
