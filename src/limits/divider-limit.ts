import type { Load } from '../circuit/model.js';
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
  const others = loadsBesideResistances(facts);
  return limitOnPart(meta, {
    part,
    judgement: judgeAbove(steadyRatio, level),
    demands: [demandOn({ facts, part, end: 'min', bound: 'max', read: readSteadyRatio, measure: ratioDemand(level) })],
    basis: (value) => {
      const result = quantityText(value, 'Ω');
      if (others.length > 0) {
        const power = others.some((load) => load.power !== undefined) ? ' (a load of constant power P takes P/V)' : '';
        return `With the link at V the resistor carries (U − V)/R, which must feed all that draws there${power}, on the whole way up to p·U. No one formula holds for loads that start, stop or draw a constant power: the bound is found by computing the rise, all else at its worst; with p = ${percentText(level)} it is ${result}${toNominal(part, 'max')}.`;
      }
      const load = quantityText((value * level) / (1 - level), 'Ω');
      return `A load L lets the link settle at L/(R + L), so R is below L·(1 − p)/p. Everything that loads the rise acts as L = ${load} at worst; with p = ${percentText(level)} that is ${result}${toNominal(part, 'max')}.`;
    },
  });
}

/** Loads in the rise that a divider's formula does not hold for: they start or stop at a voltage, or draw a constant power. */
function loadsBesideResistances({ circuit }: Facts): readonly Load[] {
  return circuit.elements.filter(
    (element): element is Load =>
      element.kind === 'load' &&
      element.activeIn.includes('precharge') &&
      (element.power !== undefined || element.startsAbove > 0),
  );
}
