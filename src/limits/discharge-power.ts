import { type Resistor } from '../circuit/model.js';
import type { Facts } from '../facts/facts.js';
import type { Figure } from '../facts/figure.js';
import { elementById } from '../circuit/model.js';

/** The power of one discharge resistor with the highest voltage held on the link, in each state that puts voltage across it. */
export interface DischargePower {
  readonly resistor: Resistor;
  readonly states: ReadonlyArray<{ readonly fall: number; readonly power: Figure }>;
}

export function dischargePowers({ circuit, topology, falls }: Facts): readonly DischargePower[] {
  return topology.dischargeResistors.flatMap((id) => {
    const resistor = elementById(circuit, id);
    if (resistor?.kind !== 'resistor') return [];
    const states = falls.flatMap(({ continuousPower }, fall) => {
      const power = continuousPower.get(id);
      return power === undefined ? [] : [{ fall, power }];
    });
    return states.length === 0 ? [] : [{ resistor, states }];
  });
}

/** How long the ruleset wants it stood, to end a sentence. */
export function ratingTimeText(seconds: number | null): string {
  return seconds === null ? 'permanently' : `for ${seconds} s`;
}
