import type { Facts } from '../facts/facts.js';
import { computeWindows } from './compute-windows.js';
import type { LimitRecord, WindowRecord } from './limit-record.js';
import { limits } from './limits.js';
import { markBinding } from './mark-binding.js';

/** Every limit on every part of a circuit, and the window that they leave for each part of the two circuits. Pure. */
export function computeLimits(facts: Facts): { limits: LimitRecord[]; windows: WindowRecord[] } {
  const records = markBinding(limits.flatMap(({ compute }) => compute(facts)));
  return { limits: records, windows: computeWindows(facts, records) };
}
