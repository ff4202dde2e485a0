import type { Toleranced } from '../../circuit/model.js';
import type { StockPart } from './stock-part.js';
import type { StockUse } from './stock-use.js';

export interface Tolerances {
  readonly upward: number;
  readonly downward: number;
}

/** One part, or two in series or parallel. */
export interface Combination {
  readonly use: StockUse['use'];
  readonly parts: readonly number[];
  /** Ω of all together. */
  readonly low: number;
  readonly nominal: number;
  readonly high: number;
  /** The largest share of the whole power that each part can get, in the order of `parts`. */
  readonly shares: readonly number[];
  /** W at which, all at nominal, the first part reaches its rating. */
  readonly power: number;
}

type Range = Pick<Toleranced, 'min' | 'nominal' | 'max'>;

/** All that can be made of a stock with at most two parts. */
export function combinations(stock: readonly StockPart[], tolerances: Tolerances): Combination[] {
  const ranges = stock.map(({ resistance }) => rangeOf(resistance, tolerances));
  return stock.flatMap((first, i) => {
    const a = ranges[i];
    if (a === undefined) return [];
    const single: Combination = {
      use: 'single',
      parts: [i],
      low: a.min,
      nominal: a.nominal,
      high: a.max,
      shares: [1],
      power: first.power,
    };
    const pairs = stock.slice(i).flatMap((second, step) => {
      const b = ranges[i + step];
      const enough = step > 0 || first.count > 1;
      if (b === undefined || !enough) return [];
      const parts = [i, i + step];
      return [inSeries(parts, [a, b], [first, second]), inParallel(parts, [a, b], [first, second])];
    });
    return [single, ...pairs];
  });
}

/** The range of a part; where it states no tolerance, by that of the part in whose place it is put. */
export function rangeOf(resistance: Toleranced, { upward, downward }: Tolerances): Range {
  const { nominal, toleranceStated } = resistance;
  return toleranceStated ? resistance : { nominal, min: nominal * (1 - downward), max: nominal * (1 + upward) };
}

type Pair<T> = readonly [T, T];

/** The same current through both, so power in proportion to resistance. Ohm's law, textbook. */
function inSeries(parts: readonly number[], [a, b]: Pair<Range>, [p, q]: Pair<StockPart>): Combination {
  const nominal = a.nominal + b.nominal;
  return {
    use: 'series',
    parts,
    low: a.min + b.min,
    nominal,
    high: a.max + b.max,
    shares: [a.max / (a.max + b.min), b.max / (b.max + a.min)],
    power: Math.min((p.power * nominal) / a.nominal, (q.power * nominal) / b.nominal),
  };
}

/** The same voltage across both, so power in proportion to conductance. Ohm's law, textbook. */
function inParallel(parts: readonly number[], [a, b]: Pair<Range>, [p, q]: Pair<StockPart>): Combination {
  const nominal = parallel(a.nominal, b.nominal);
  return {
    use: 'parallel',
    parts,
    low: parallel(a.min, b.min),
    nominal,
    high: parallel(a.max, b.max),
    shares: [b.max / (b.max + a.min), a.max / (a.max + b.min)],
    power: Math.min((p.power * a.nominal) / nominal, (q.power * b.nominal) / nominal),
  };
}

function parallel(a: number, b: number): number {
  return (a * b) / (a + b);
}
