import type { ResolvedCircuit } from '../../circuit/model.js';

/** How many loads of each kind draw in the rise; falls are computed without loads, so no other phase counts. */
export interface LoadCounts {
  /** Resistances and constant currents that always draw: what they do in the end is proved. */
  readonly steady: number;
  /** No powers, and asleep below some voltage. */
  readonly bent: number;
  readonly powers: number;
  /** Of those, asleep below some voltage. */
  readonly sleepers: number;
}

export function loadCounts({ elements }: ResolvedCircuit): LoadCounts {
  const counts = { steady: 0, bent: 0, powers: 0, sleepers: 0 };
  for (const element of elements) {
    if (element.kind !== 'load' || !element.activeIn.includes('precharge')) continue;
    if (element.power !== undefined) {
      counts.powers += 1;
      if (element.startsAbove > 0) counts.sleepers += 1;
    } else if (element.startsAbove > 0) counts.bent += 1;
    else counts.steady += 1;
  }
  return counts;
}
