import type { VerdictAnswer } from '../../verify/batch/batch-schemas.js';
import type { Report, TimeFigureAnswer } from '../../verify/report.js';

type Cell = string | number | null;

/** Where there is no number: never, without end, or not computable. */
const NONE = 'n/a';

/** Named so that they do not collide with a table's own columns. */
const VERDICT_HEADINGS = ['status', 'verdict', 'violated', 'undetermined', 'advice', 'message'];
const FIGURE_HEADINGS = [
  'precharge_ratio_min',
  'precharge_time_max',
  'precharge_current_max',
  'precharge_energy_max',
  'discharge_time_max',
  'discharge_state',
  'tightest_limit',
  'tightest_element',
  'tightest_margin',
];

/** Headings of what is said of each car; figures are SI and the worst over all tolerances. */
export function resultHeadings(detail: 'verdict' | 'full'): string[] {
  const names = detail === 'full' ? [...VERDICT_HEADINGS, ...FIGURE_HEADINGS] : VERDICT_HEADINGS;
  return names.map((name) => `result_${name}`);
}

/** The cells of a car that was judged, under `resultHeadings('verdict')`. */
export function verdictCells({ verdict, violated, undetermined, advice, message }: VerdictAnswer): Cell[] {
  return [200, verdict, violated.join(' '), undetermined.join(' '), advice.join(' '), message ?? ''];
}

/** The further cells of a car under `resultHeadings('full')`. */
export function figureCells({ precharge, discharge, limits }: Report): Cell[] {
  const falls = discharge
    .filter(({ required }) => required)
    .flatMap(({ id, timeToLimit }) => (timeToLimit === undefined ? [] : [{ id, time: timeToLimit }]))
    .sort((a, b) => seconds(b.time) - seconds(a.time));
  const [slowest] = falls;
  const [tightest] = limits
    .flatMap(({ name, element, margin }) => (margin === null ? [] : [{ name, element: element ?? '', margin }]))
    .sort((a, b) => a.margin - b.margin);
  return [
    precharge.steadyRatio.min ?? NONE,
    precharge.timeToThreshold.max ?? NONE,
    precharge.peakCurrent.max ?? NONE,
    precharge.resistorEnergy.max ?? NONE,
    slowest?.time.max ?? NONE,
    slowest?.id ?? NONE,
    tightest?.name ?? NONE,
    tightest?.element ?? NONE,
    tightest?.margin ?? NONE,
  ];
}

/** The cells of a car that could not be judged; as many as `resultHeadings` has. */
export function problemCells(status: number, sentences: readonly string[], detail: 'verdict' | 'full'): Cell[] {
  const cells: Cell[] = [status, 'problem', '', '', '', sentences.join(' ')];
  return detail === 'full' ? [...cells, ...FIGURE_HEADINGS.map(() => NONE)] : cells;
}

function seconds({ max }: TimeFigureAnswer): number {
  return max ?? Number.POSITIVE_INFINITY;
}
