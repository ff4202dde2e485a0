export type BoundOutcome =
  | { readonly kind: 'bound'; readonly value: number }
  /** Even the most favourable value fails. */
  | { readonly kind: 'no-value-helps' }
  /** Even the least favourable value holds. */
  | { readonly kind: 'no-value-hurts' };

export interface BoundSearch {
  readonly bound: 'min' | 'max';
  /**
   * How much of what is allowed the part's value takes up: 1 at the bound, less where the value holds, Infinity where there is
   * no telling how much. It must not fall towards the bound: with the value for a max, against it for a min.
   */
  readonly demand: (value: number) => number;
  /** A value whose demand is known. */
  readonly start: { readonly value: number; readonly demand: number };
  /** A first value to try, where something better is known than that the demand is in proportion. */
  readonly guess?: number;
  readonly lowest: number;
  readonly highest: number;
}

interface Point {
  /** The value for a max, its reciprocal for a min: the demand rises with it. */
  readonly at: number;
  readonly demand: number;
}

const MOST_STEPS = 100;
/** Relative; finer than the 1e-10 that a bound is wanted to. */
const PRECISION = 3e-11;
/** Below this distance from 1 a demand says no more about the value: rounding of the figures. */
const NOTHING = 1e-13;
/** Steps after which every other one only halves the bracket. */
const PATIENCE = 12;
/** By how much a value of infinite demand is brought down. */
const SHRINK = 8;

/**
 * The largest (smallest) value of a part whose demand is at most 1, to 1e-10 relative.
 *
 * Every DC voltage and current is a Möbius function (a + bx)/(c + dx) of a single resistance, a fall through one resistance
 * as well, and a rise nearly: so a hyperbola through the last three points lands on the bound or very near it. A bracket is
 * kept, and halved in the logarithm wherever the hyperbola points out of it.
 */
export function findBound({ bound, demand, start, guess, lowest, highest }: BoundSearch): BoundOutcome {
  const turn = (value: number): number => (bound === 'max' ? value : 1 / value);
  const floor = turn(bound === 'max' ? lowest : highest);
  const ceiling = turn(bound === 'max' ? highest : lowest);
  const points: Point[] = [];
  let holds: Point | undefined;
  let fails: Point | undefined;
  const take = (point: Point): void => {
    points.push(point);
    if (point.demand <= 1) holds = holds === undefined || point.at > holds.at ? point : holds;
    else fails = fails === undefined || point.at < fails.at ? point : fails;
  };
  take({ at: turn(start.value), demand: start.demand });
  for (let count = 1; count < MOST_STEPS; count += 1) {
    const last = points[points.length - 1];
    const before = points[points.length - 2];
    if (last === undefined) break;
    if (Math.abs(last.demand - 1) <= NOTHING) return { kind: 'bound', value: turn(last.at) };
    if (fails === undefined && last.at >= ceiling) return { kind: 'no-value-hurts' };
    if (holds === undefined && last.at <= floor) return { kind: 'no-value-helps' };
    if (holds !== undefined && fails !== undefined && fails.at - holds.at <= PRECISION * fails.at) break;
    const wanted = count === 1 && guess !== undefined ? turn(guess) : rootOf(points);
    if (wanted !== undefined && before !== undefined && isSettled(wanted, last, before)) {
      return { kind: 'bound', value: turn(wanted) };
    }
    const next = within(count > PATIENCE && count % 2 === 0 ? undefined : wanted, { holds, fails, floor, ceiling });
    take({ at: next, demand: demand(turn(next)) });
  }
  return { kind: 'bound', value: turn(holds?.at ?? floor) };
}

/**
 * True where a root needs no trial: the hyperbola's error is of the order of the product of the distances of its three
 * points, each of which must have a demand.
 */
function isSettled(root: number, last: Point, before: Point): boolean {
  if (!Number.isFinite(last.demand) || !Number.isFinite(before.demand)) return false;
  const distance = Math.abs(root / last.at - 1);
  return distance <= 1e-3 && distance * Math.abs(root / before.at - 1) <= PRECISION;
}

interface Bracket {
  readonly holds: Point | undefined;
  readonly fails: Point | undefined;
  readonly floor: number;
  readonly ceiling: number;
}

/** The wanted place where it lies inside what is not known yet, else one that halves it. */
function within(wanted: number | undefined, { holds, fails, floor, ceiling }: Bracket): number {
  if (holds !== undefined && fails !== undefined) {
    return wanted !== undefined && wanted > holds.at && wanted < fails.at ? wanted : Math.sqrt(holds.at * fails.at);
  }
  if (holds !== undefined) return wanted !== undefined && wanted > holds.at ? Math.min(wanted, ceiling) : ceiling;
  const from = fails?.at ?? ceiling;
  // Without any finite demand there is nothing to aim by.
  const aim = wanted ?? from / SHRINK;
  return aim < from ? Math.max(aim, floor) : floor;
}

/** Where the points nearest to the bound say that it is: 0 where they say nowhere, undefined where no demand is finite. */
function rootOf(points: readonly Point[]): number | undefined {
  const [c, b, a] = points
    .filter(({ demand }) => Number.isFinite(demand))
    .sort((p, q) => Math.abs(p.demand - 1) - Math.abs(q.demand - 1));
  if (c === undefined) return undefined;
  // One point: in proportion.
  if (b === undefined) return c.at / c.demand;
  const fc = c.demand - 1;
  const fb = b.demand - 1;
  const slopeB = (b.at - c.at) / (fb - fc);
  const line = c.at - fc * slopeB;
  if (a === undefined) return ahead(line);
  // x − x_c = s·(f − f_c)/(1 + d·f) through the other two points, taken at f = 0.
  const fa = a.demand - 1;
  const slopeA = (a.at - c.at) / (fa - fc);
  const curve = c.at - (fc * slopeA * slopeB * (fa - fb)) / (slopeA * fa - slopeB * fb);
  return ahead(curve) > 0 ? curve : ahead(line);
}

function ahead(place: number): number {
  return place > 0 && Number.isFinite(place) ? place : 0;
}
