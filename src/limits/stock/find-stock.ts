import type { Facts } from '../../facts/facts.js';
import type { Figure } from '../../facts/figure.js';
import { notComputable } from '../../facts/figures/not-computable.js';
import { boundedPart } from '../bounded-part.js';
import { boundsOn } from '../bounds-on.js';
import type { LimitRecord, WindowRecord } from '../limit-record.js';
import { quantityText } from '../quantity-text.js';
import { type Combination, combinations } from './combinations.js';
import { powerEstimate } from './power-estimate.js';
import { type PowerQuestion, powerQuestions } from './power-questions.js';
import { resistanceBounds, type ResistanceBounds } from './resistance-bounds.js';
import type { StockPart } from './stock-part.js';
import type { StockNote, StockUse } from './stock-use.js';
import { type Refitted, withParts } from './with-parts.js';

/** Uses listed for one resistor. */
const MOST = 20;
/** Combinations whose power is computed exactly before the search ends; each costs a pass over the circuit. */
const MOST_COMPUTED = 60;
/** Combinations put into the circuit and judged by every rule for one resistor; each costs a whole judgement. */
const MOST_JUDGED = 30;

/** What every rule says of a circuit with parts from the stock in it. */
export interface RulesKept {
  /** Rules that these parts break. */
  readonly broken: readonly string[];
  /** Rules that they leave open. */
  readonly open: readonly string[];
}

export interface StockQuestion {
  readonly limits: readonly LimitRecord[];
  readonly windows: readonly WindowRecord[];
  readonly stock: readonly StockPart[];
  /** Judges a circuit with parts built in; this floor knows no rules. */
  readonly judge: (refitted: Refitted) => RulesKept;
}

interface Candidate {
  readonly combination: Combination;
  readonly margin: number;
  readonly open: readonly string[];
  /** The largest share of what it surely stands that a part would get; above 1 only where it may stand more for a short time. */
  readonly strain: number;
}

/**
 * Which parts at hand, single or two in series or parallel, can stand in the place of each resistor that has a window: their
 * resistance keeps every limit over its whole range, each part's own share of the power stays below what it stands, and with
 * them built in no rule is broken that is not broken for another reason.
 */
export function findStock(facts: Facts, question: StockQuestion): { stock: StockUse[]; stockNotes: StockNote[] } {
  const uses: StockUse[] = [];
  const stockNotes: StockNote[] = [];
  for (const { element, quantity } of question.windows) {
    if (quantity !== 'resistance') continue;
    const found = usesOrReason(facts, element, question);
    if (typeof found === 'string') stockNotes.push({ element, note: found });
    else uses.push(...found);
  }
  return { stock: uses, stockNotes };
}

/** How many judgements a stock can ask for at most, over all resistors that have a window. */
export function stockTrials(windows: readonly WindowRecord[], stock: readonly StockPart[]): number {
  const places = windows.filter(({ quantity }) => quantity === 'resistance').length;
  // Each alone, every two different ones in both ways, and two alike in both ways.
  const combined = stock.length ** 2 + 2 * stock.filter(({ count }) => count > 1).length;
  return places * Math.min(MOST_JUDGED, combined);
}

/** As `usesFor`; where a figure cannot be computed that is the reason. */
function usesOrReason(...question: Parameters<typeof usesFor>): StockUse[] | string {
  try {
    return usesFor(...question);
  } catch (error) {
    const refused = notComputable(question[0].circuit, error);
    if (refused === undefined) throw error;
    return `It cannot be told without ${refused.missing.join(', ')}.`;
  }
}

/** The uses in one place; or why there is none. */
function usesFor(facts: Facts, element: string, { limits, stock, judge }: StockQuestion): StockUse[] | string {
  const part = boundedPart(facts.circuit, facts.conditions, element);
  if (part === undefined) return 'It has no resistance that could be replaced.';
  const bounds = resistanceBounds(boundsOn(facts, part, limits));
  if (bounds.hopeless !== undefined) return `No resistance satisfies ${bounds.hopeless}.`;
  const inside = combinations(stock, part)
    .map((combination) => withinBounds(combination, bounds))
    .filter(({ margin }) => margin > 0);
  const [low, high] = [quantityText(bounds.above, 'Ω'), quantityText(bounds.below, 'Ω')];
  if (inside.length === 0) return `Nothing at hand lies above ${low} and below ${high} over its whole tolerance.`;
  const strong = strongEnough(facts, element, stock, inside);
  if (strong.length === 0) return 'What at hand has the right resistance does not stand the power.';
  const broken = new Set<string>();
  const kept: Candidate[] = [];
  for (const candidate of strong.slice(0, MOST_JUDGED)) {
    if (kept.length >= MOST) break;
    const said = judge(withParts(facts.circuit, element, candidate.combination, stock, part));
    for (const rule of said.broken) broken.add(rule);
    // A rule that is open for a limit that is listed as open says the same once more.
    const named = limits.filter(({ name }) => candidate.open.includes(name)).map(({ rule }) => rule);
    const open = said.open.filter((rule) => !named.includes(rule));
    if (said.broken.length === 0) kept.push({ ...candidate, open: [...candidate.open, ...open] });
  }
  if (kept.length === 0) return `What at hand stands the power breaks ${[...broken].sort().join(', ')}.`;
  return kept.sort(bestFirst).map(({ combination: { use, parts, nominal, power }, margin, open, strain }) => ({
    element,
    use,
    parts: [...parts],
    resistance: nominal,
    power,
    margin,
    open: [...open],
    ...(strain > 1 && Number.isFinite(strain) ? { overload: strain } : {}),
  }));
}

function withinBounds(combination: Combination, { above, below, open }: ResistanceBounds): Candidate {
  const { low, high } = combination;
  return { combination, margin: Math.min(1 - above / low, 1 - high / below), open, strain: 0 };
}

/** Those that stand the power, best first. Ranked by an estimate that is never too small, then confirmed one by one. */
function strongEnough(
  facts: Facts,
  element: string,
  stock: readonly StockPart[],
  inside: readonly Candidate[],
): readonly Candidate[] {
  const { questions, open } = powerQuestions(facts, element);
  const lows = inside.map(({ combination }) => combination.low);
  const [lowest, highest] = [Math.min(...lows), Math.max(...lows)];
  const estimates = questions.map(({ power }) =>
    powerEstimate((at) => power(facts.vary(element, at))?.max ?? Infinity, lowest, highest),
  );
  const asked = questions.map((question) => ({ ...question, allowances: stock.map(question.allowance) }));
  const estimated = inside
    .map((candidate) => ({ ...candidate, open: [...candidate.open, ...open] }))
    .flatMap(
      (candidate) =>
        judged(asked, stock, candidate, (index) => certain(estimates[index]?.(candidate.combination.low))) ?? [],
    )
    .sort(bestFirst)
    .slice(0, MOST_COMPUTED);
  const confirmed: Candidate[] = [];
  for (const { combination } of estimated) {
    const original = inside.find((one) => one.combination === combination);
    if (confirmed.length >= MOST_JUDGED || original === undefined) break;
    const figures = facts.vary(element, combination.low);
    const candidate = { ...original, open: [...original.open, ...open] };
    const exact = judged(asked, stock, candidate, (index) => questions[index]?.power(figures));
    if (exact !== undefined) confirmed.push(exact);
  }
  return confirmed.sort(bestFirst);
}

type Asked = PowerQuestion & { readonly allowances: ReadonlyArray<ReturnType<PowerQuestion['allowance']>> };

/** The candidate with its margin to every power in it; undefined where a part does not stand its share. */
function judged(
  asked: readonly Asked[],
  stock: readonly StockPart[],
  candidate: Candidate,
  powerOf: (question: number) => Figure | undefined,
): Candidate | undefined {
  let { margin, strain } = candidate;
  const open = new Set(candidate.open);
  const { parts, shares } = candidate.combination;
  for (const [index, { limit, allowances }] of asked.entries()) {
    const power = powerOf(index);
    if (power === undefined) continue;
    for (const [place, part] of parts.entries()) {
      const allowance = allowances[part];
      if (allowance === undefined || stock[part] === undefined) return undefined;
      const own = scaled(power, shares[place] ?? 1);
      const { satisfied } = allowance.judge(own);
      if (satisfied === false) return undefined;
      if (own.max !== null && own.max > 0) strain = Math.max(strain, own.max / allowance.atLeast);
      if (satisfied === null) open.add(limit);
      else if (own.max !== null && own.max > 0) margin = Math.min(margin, 1 - own.max / allowance.atLeast);
    }
  }
  return margin > 0 ? { ...candidate, margin, strain, open: [...open] } : undefined;
}

function scaled(power: Figure, share: number): Figure {
  const by = (value: number | null): number | null => (value === null ? null : value * share);
  const { nominal, min, max, stated, gap } = power;
  return {
    ...power,
    ...(gap === undefined ? {} : { gap: { min: by(gap.min), max: by(gap.max) } }),
    nominal: by(nominal),
    min: by(min),
    max: by(max),
    stated: { min: by(stated.min), max: by(stated.max) },
  };
}

/** A figure of one value. */
function certain(value = Infinity): Figure {
  const ends = { min: value, max: value };
  return { nominal: value, ...ends, stated: ends, bare: [], bound: 'proved', at: { min: {}, max: {} } };
}

/**
 * What keeps every limit before what leaves some open; then what has to stand least beyond its rating; then by margin; then the
 * fewer and the earlier parts.
 */
function bestFirst(a: Candidate, b: Candidate): number {
  return (
    a.open.length - b.open.length ||
    compare(Math.max(1, a.strain), Math.max(1, b.strain)) ||
    b.margin - a.margin ||
    a.combination.parts.length - b.combination.parts.length ||
    (a.combination.parts[0] ?? 0) - (b.combination.parts[0] ?? 0) ||
    (a.combination.parts[1] ?? 0) - (b.combination.parts[1] ?? 0)
  );
}

/** Infinity beside Infinity is no difference. */
function compare(a: number, b: number): number {
  return a === b ? 0 : a - b;
}
