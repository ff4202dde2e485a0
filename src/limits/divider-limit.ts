import type { Facts } from '../facts/facts.js';
import type { BoundedPart } from './bounded-part.js';
import { demandOn, ratioDemand } from './demand.js';
import { judgeAbove } from './judgement.js';
import type { LimitMeta, OneLimit } from './limit.js';
import { limitOnPart } from './limit-on-part.js';
import { percentText, quantityText } from './quantity-text.js';
import { readSteadyRatio } from './read-steady-ratio.js';
import { toNominal } from './to-nominal.js';

/** The largest series resistance with which the link still settles above a ratio of the accumulator's voltage. */
export function dividerLimit(meta: LimitMeta, facts: Facts, part: BoundedPart, level: number): OneLimit {
  const { steadyRatio } = facts.rise;
  return limitOnPart(meta, {
    part,
    judgement: judgeAbove(steadyRatio, level),
    demands: [demandOn({ facts, part, end: 'min', bound: 'max', read: readSteadyRatio, measure: ratioDemand(level) })],
    basis: (value) => {
      const load = quantityText((value * level) / (1 - level), 'Ω');
      const result = quantityText(value, 'Ω');
      return `A load L lets the link settle at L/(R + L), so R is below L·(1 − p)/p. Everything that loads the rise acts as L = ${load} at worst; with p = ${percentText(level)} that is ${result}${toNominal(part, 'max')}.`;
    },
  });
}
