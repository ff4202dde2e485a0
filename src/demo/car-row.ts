import { showFigure, verdictWords } from '../render/index.js';
import type { Report, TimeFigureAnswer } from '../verify/report.js';
import type { Verified } from './submission.js';
import { worstThing } from './worst-thing.js';

export interface CarRow {
  readonly car: string;
  readonly verdict: Report['verdict'];
  readonly words: string;
  /** Longest time to the threshold, or `never`. */
  readonly rise: string;
  /** Longest time to the limit in any state the ruleset names, or `never`. */
  readonly fall: string;
  readonly worst: string;
}

/** One line of the table. */
export function carRow({ submission, report }: Verified): CarRow {
  return {
    car: submission.request.circuit.title,
    verdict: report.verdict,
    words: verdictWords[report.verdict].short,
    rise: longest(report.precharge.timeToThreshold),
    fall: slowestFall(report),
    worst: worstThing(report),
  };
}

function slowestFall({ discharge }: Report): string {
  const times = discharge.flatMap(({ required, timeToLimit }) =>
    required && timeToLimit !== undefined ? [timeToLimit] : [],
  );
  const seconds = (time: TimeFigureAnswer): number => time.max ?? Number.POSITIVE_INFINITY;
  const [slowest] = times.sort((a, b) => seconds(b) - seconds(a));
  return slowest === undefined ? '-' : longest(slowest);
}

/** Always in s, so that a column of times can be compared at a glance. */
function longest(time: TimeFigureAnswer): string {
  return time.max === null ? showFigure(time, 'max') : `${time.max.toFixed(time.max < 100 ? 2 : 0)} s`;
}
