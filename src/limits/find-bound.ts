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
  /** Further values whose demand is known. */
  readonly known?: ReadonlyArray<{ readonly value: number; readonly demand: number }>;
  /**
   * A formula that gives about the demand; without one the demand is taken to be in proportion to the value (max) or to its
   * reciprocal (min). It only decides which values are tried.
   */
  readonly model?: ((value: number) => number) | undefined;
  readonly lowest: number;
  readonly highest: number;
}

interface Point {
  /** The value for a max, its reciprocal for a min: the demand rises with it. */
  readonly at: number;
  readonly demand: number;
  /** What the model says there; `at` where there is none. */
  readonly modelled: number;
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
/** Relative; so near to a point already tried a root needs no trial of its own. */
const NEAR = 1e-10;

/**
 * The largest (smallest) value of a part whose demand is at most 1, to 1e-10 relative.
 *
 * Every DC voltage and current is a Möbius function (a + bx)/(c + dx) of a single resistance, a fall through one resistance
 * as well, and a rise nearly: so a hyperbola through the last three points lands on the bound or very near it, the nearer the
 * better the model that they are drawn over. A bracket is kept, and halved in the logarithm wherever the hyperbola points out
 * of it.
 */
export function findBound(question: BoundSearch): BoundOutcome {
  const { bound, demand, start, known = [], model, lowest, highest } = question;
  const turn = (value: number): number => (bound === 'max' ? value : 1 / value);
  const floor = turn(bound === 'max' ? lowest : highest);
  const ceiling = turn(bound === 'max' ? highest : lowest);
  const points: Point[] = [];
  let holds: Point | undefined;
  let fails: Point | undefined;
  let step = PRECISION;
  const take = (value: number, there: number): void => {
    const point = { at: turn(value), demand: there, modelled: model === undefined ? turn(value) : model(value) };
    points.push(point);
    if (point.demand <= 1) holds = holds === undefined || point.at > holds.at ? point : holds;
    else fails = fails === undefined || point.at < fails.at ? point : fails;
  };
  for (const each of risingWith(start, known, turn)) {
    if (Math.abs(each.demand - 1) <= NOTHING) return { kind: 'bound', value: each.value };
    take(each.value, each.demand);
  }
  take(start.value, start.demand);
  for (let count = 1; count < MOST_STEPS; count += 1) {
    const last = points[points.length - 1];
    const before = points[points.length - 2];
    if (last === undefined) break;
    if (Math.abs(last.demand - 1) <= NOTHING) return { kind: 'bound', value: turn(last.at) };
    if (fails === undefined && last.at >= ceiling) return { kind: 'no-value-hurts' };
    if (holds === undefined && last.at <= floor) return { kind: 'no-value-helps' };
    if (holds !== undefined && fails !== undefined && fails.at - holds.at <= PRECISION * fails.at) break;
    const wanted = wantedPlace(points, question, turn);
    const inside = wanted !== undefined && wanted.at > (holds?.at ?? 0) && wanted.at < (fails?.at ?? Infinity);
    // Next to where the demand is infinite no curve through finite ones says how near.
    if (inside && Number.isFinite(fails?.demand ?? 0) && before !== undefined && isSettled(wanted, last, before)) {
      return { kind: 'bound', value: turn(wanted.at) };
    }
    const aim = count > PATIENCE && count % 2 === 0 ? undefined : wanted?.at;
    // A formula that points at what fails, or beyond, is next to where the demand is infinite: a little back from there, then more.
    const back = model !== undefined && aim !== undefined && aim >= (fails?.at ?? Infinity);
    const next = within(back ? (fails?.at ?? 0) * (1 - step) : aim, { holds, fails, floor, ceiling });
    if (back) step = Math.min(1 - 1 / SHRINK, step * 1e3);
    take(turn(next), demand(turn(next)));
  }
  return { kind: 'bound', value: turn(holds?.at ?? floor) };
}

type Known = BoundSearch['start'];

/**
 * The values known, where with the start they fit a demand that rises through 1 once; of one that does so more than once those
 * around the start, from the nearest below it that holds to the nearest above that that fails.
 */
function risingWith(start: Known, known: readonly Known[], turn: (value: number) => number): readonly Known[] {
  const places = (holds: boolean): number[] =>
    [...known, start].filter(({ demand }) => demand <= 1 === holds).map(({ value }) => turn(value));
  const [holding, failing] = [places(true), places(false)];
  if (Math.max(...holding) < Math.min(...failing)) return known;
  const from = Math.max(...holding.filter((at) => at <= turn(start.value)));
  const to = Math.min(...failing.filter((at) => at > from));
  return known.filter(({ value }) => turn(value) >= from && turn(value) <= to);
}

/** Where the points say that the bound is: undefined where no demand is finite, 0 or Infinity where it is nowhere. */
function wantedPlace(
  points: readonly Point[],
  { bound, model, lowest, highest }: BoundSearch,
  turn: (value: number) => number,
): Omit<Point, 'demand'> | undefined {
  if (model === undefined) {
    const at = rootOf(points);
    return at === undefined ? undefined : { at, modelled: at };
  }
  // Without any finite demand the formula is all there is to go by.
  const modelled = rootOf(points.filter((point) => Number.isFinite(point.modelled))) ?? 1;
  if (modelled === 0) return { at: 0, modelled };
  return { at: turn(placeOf(model, modelled, bound, [lowest, highest])), modelled };
}

/** The value at which a formula gives a result, by halving in the logarithm: it costs nothing beside a demand. */
function placeOf(
  model: (value: number) => number,
  result: number,
  bound: 'min' | 'max',
  [from, to]: readonly [number, number],
): number {
  let [low, high] = [from, to];
  while (high > low * (1 + Number.EPSILON * 4)) {
    const middle = Math.sqrt(low * high);
    if (middle <= low || middle >= high) break;
    if (model(middle) < result === (bound === 'max')) low = middle;
    else high = middle;
  }
  return low;
}

/**
 * True where a root needs no trial: the hyperbola's error is of the order of the product of the distances of its three
 * points, each of which must have a demand.
 */
function isSettled(root: Omit<Point, 'demand'>, last: Point, before: Point): boolean {
  if (!Number.isFinite(last.demand) || !Number.isFinite(before.demand)) return false;
  if (Math.abs(root.at / last.at - 1) <= NEAR) return true;
  const distanceTo = (point: Point): number =>
    Math.max(Math.abs(root.at / point.at - 1), Math.abs(root.modelled / point.modelled - 1));
  const distance = distanceTo(last);
  return distance <= 1e-3 && distance * distanceTo(before) <= PRECISION;
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

/** The result of the model at which the points nearest to the bound say that it is: 0 where nowhere, undefined where no demand is finite. */
function rootOf(points: readonly Point[]): number | undefined {
  const [c, b, a] = points
    .filter(({ demand }) => Number.isFinite(demand))
    .sort((p, q) => Math.abs(p.demand - 1) - Math.abs(q.demand - 1));
  if (c === undefined) return undefined;
  // One point: in proportion.
  if (b === undefined) return c.modelled / c.demand;
  const fc = c.demand - 1;
  const fb = b.demand - 1;
  const slopeB = (b.modelled - c.modelled) / (fb - fc);
  const line = c.modelled - fc * slopeB;
  if (a === undefined) return ahead(line);
  // x − x_c = s·(f − f_c)/(1 + d·f) through the other two points, taken at f = 0.
  const fa = a.demand - 1;
  const slopeA = (a.modelled - c.modelled) / (fa - fc);
  const curve = c.modelled - (fc * slopeA * slopeB * (fa - fb)) / (slopeA * fa - slopeB * fb);
  return ahead(curve) > 0 ? curve : ahead(line);
}

function ahead(place: number): number {
  return place > 0 && Number.isFinite(place) ? place : 0;
}
