import type { Resistor } from '../circuit/model.js';
import { findBound } from './find-bound.js';
import type { Judgement } from './judgement.js';
import type { LimitMeta, OneLimit } from './limit.js';
import { quantityText } from './quantity-text.js';
import { recordOf } from './record-of.js';

/** W; wider than any part. */
const RANGE = { lowest: 1e-9, highest: 1e12 } as const;

export interface RatingQuestion {
  readonly resistor: Resistor;
  /** Of the circuit as it is. */
  readonly judgement: Judgement;
  /** True where something fails that no rating changes. */
  readonly inVain?: boolean;
  /** W that it must stand at worst; null: no number. */
  readonly power: number | null;
  /** Where the parts stand then. */
  readonly at?: Readonly<Record<string, number>> | undefined;
  /** What a resistor of another rating is sure to stand, what would raise that, and without what no rating is enough. */
  readonly allowance: (rated: Resistor) => {
    readonly atLeast: number;
    readonly missing: readonly string[];
    readonly needed?: readonly string[];
  };
  /** Where and how long the power is to be stood, to end a sentence. */
  readonly when: string;
}

/** The smallest rated power of a resistor, all else about it as it is, with which it stands what it must. */
export function ratedPowerLimit(
  meta: LimitMeta,
  { resistor, judgement, inVain = false, power, at, allowance, when }: RatingQuestion,
): OneLimit {
  // In free air a chassis-mounted part has a rating of its own.
  const field = resistor.mounting === 'free-air' ? 'powerFreeAir' : 'power';
  const present = resistor.ratings?.[field] ?? null;
  const rated = (watts: number): Resistor => ({ ...resistor, ratings: { ...resistor.ratings, [field]: watts } });
  const common = { meta, element: resistor.id, present };
  const largest = allowance(rated(RANGE.highest));
  const hopeless = power === null || power > largest.atLeast;
  const notStated = [...(largest.needed ?? []), ...(hopeless ? largest.missing : [])];
  if (power === null || judgement.notComputable || notStated.length > 0) {
    const missing = [...judgement.missing, ...notStated];
    return recordOf({
      ...common,
      outcome: 'not-stated',
      value: null,
      nominal: null,
      judgement: { ...judgement, missing },
      basis: meta.formula,
    });
  }
  const demand = (watts: number): number => {
    const { atLeast } = allowance(rated(watts));
    return atLeast > 0 ? power / atLeast : Number.POSITIVE_INFINITY;
  };
  const from = present !== null && present > 0 ? present : Math.max(power, 1);
  const search = { bound: 'min', demand, start: { value: from, demand: demand(from) }, ...RANGE } as const;
  const outcome = inVain ? ({ kind: 'no-value-helps' } as const) : findBound(search);
  const value = outcome.kind === 'bound' ? outcome.value : null;
  const stands = quantityText((1 / demand(from)) * power, 'W');
  return recordOf({
    ...common,
    outcome: outcome.kind,
    value,
    nominal: value,
    judgement,
    at,
    basis:
      value === null
        ? meta.formula
        : `At worst ${quantityText(power, 'W')} are to be stood ${when}. Rated ${quantityText(from, 'W')} it stands ${stands} so, mounting, ambient and overload rating as stated; ${quantityText(value, 'W')} are enough.`,
  });
}
