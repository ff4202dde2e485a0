import { elementById } from '../../circuit/model.js';
import type { Facts, Fall, Rise } from '../../facts/facts.js';
import type { Figure } from '../../facts/figure.js';
import { dischargePowers } from '../discharge-power.js';
import { type Judgement, judgePower } from '../judgement.js';
import { prechargeAllowance } from '../ratings/precharge-allowance.js';
import { timedAllowance } from '../ratings/timed-allowance.js';
import { replaced } from './replaced.js';
import type { StockPart } from './stock-part.js';

/** A power that must be stood in the place of a resistor, and what a part from the stock stands there. */
export interface PowerQuestion {
  /** The limit on the rating. */
  readonly limit: string;
  readonly power: (figures: { readonly rise: Rise; readonly falls: readonly Fall[] }) => Figure | undefined;
  readonly allowance: (part: StockPart) => { readonly atLeast: number; readonly judge: (power: Figure) => Judgement };
}

/** The powers that the limits on ratings are about. */
export function powerQuestions(facts: Facts, element: string): { questions: PowerQuestion[]; open: string[] } {
  const { circuit, conditions, rise, topology } = facts;
  const resistor = elementById(circuit, element);
  if (resistor?.kind !== 'resistor') return { questions: [], open: [] };
  const questions: PowerQuestion[] = [];
  const open: string[] = [];
  if (topology.prechargePath.includes(element) && topology.prechargeResistors.includes(element)) {
    const limit = 'precharge-power-rating-min';
    // Of several resistors in the path the figures speak of one only.
    if (rise.resistor !== element) open.push(limit);
    else {
      questions.push({
        limit,
        power: (figures) => figures.rise.resistorPeakPower,
        allowance: (part) => prechargeAllowance(replaced(resistor, part), circuit),
      });
    }
  }
  const own = dischargePowers(facts).find((one) => one.resistor.id === element);
  for (const { fall } of own?.states ?? []) {
    questions.push({
      limit: 'discharge-power-rating-min',
      power: ({ falls }) => falls[fall]?.continuousPower.get(element),
      allowance: (part) => {
        const allowance = timedAllowance(replaced(resistor, part), circuit, conditions.dischargeRatingTime);
        return { atLeast: allowance.atLeast, judge: (power) => judgePower(power, allowance) };
      },
    });
  }
  return { questions, open };
}
