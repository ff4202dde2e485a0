import { elementById, type Resistor } from '../circuit/model.js';
import type { Facts } from '../facts/facts.js';
import { judgePower, type PowerJudgement } from './judge-power.js';
import { worstFirst } from './worst-first.js';

/**
 * Whether a discharge resistor stands the highest voltage for a time, in the state in which it fares worst; undefined where no
 * state puts voltage across it.
 * @param time s; null: permanently
 */
export function judgeDischargeRating(
  { circuit, falls }: Facts,
  resistor: Resistor,
  time: number | null,
): PowerJudgement | undefined {
  const results = falls
    .map(({ continuousPower }) => continuousPower.get(resistor.id))
    .filter((power) => power !== undefined)
    .map((power) => judgePower(resistor, circuit, power, time))
    .sort((a, b) => worstFirst(a, b) || b.power - a.power);
  return results[0];
}

/**
 * The rule of which it is a consequence that some elements get too hot: where every one of them is a discharge resistor that does
 * not stand the highest voltage anyhow. Empty where it is a finding of its own.
 */
export function causedByRating(facts: Facts, ids: readonly string[], time: number | null): readonly string[] {
  const underrated = (id: string): boolean => {
    const element = elementById(facts.circuit, id);
    if (element?.kind !== 'resistor' || !facts.topology.dischargeResistors.includes(id)) return false;
    return judgeDischargeRating(facts, element, time)?.status === 'violated';
  };
  return ids.length > 0 && ids.every(underrated) ? ['discharge-rating'] : [];
}
