import type { Facts } from '../../facts/facts.js';
import { type BoundedPart, worstOf } from '../bounded-part.js';
import { demandOn, ratioDemand } from '../demand.js';
import { readSteadyRatio } from '../read-steady-ratio.js';
import { solveBound } from '../solve-bound.js';
import { loadModel } from './load-model.js';
import { seriesLoad } from './series-load.js';

/** Time constants in the time allowed from which on its bound lies next to where the level is never reached: 1 % of the rise is left. */
const MANY = Math.log(100);

/**
 * The time of a rise over the time allowed as one part of it changes, with all capacitance in one: charging with a load, textbook.
 * Near the resistance at which the level is never reached a time grows without bound, and there a straight line leads nowhere.
 * @param bound `max` for a part that the rise goes through, `min` for one that loads it
 */
export function riseTimeModel(
  facts: Facts,
  part: BoundedPart,
  bound: 'min' | 'max',
  { time, level }: { readonly time: number; readonly level: number },
): ((value: number) => number) | undefined {
  const load = seriesLoad(facts);
  const now = worstOf(part, bound);
  const constant = facts.rise.timeConstant.max;
  if (part.unit !== 'Ω' || load === undefined || !(now > 0) || constant === null) return undefined;
  const { series, siemens } = load;
  const drop = series * siemens;
  const place = bound === 'max' ? (value: number) => value : (value: number) => 1 / value;
  // 1/s − 1 grows evenly with the resistance in series and with the conductance of a load.
  const never = time / constant > MANY ? neverReached(facts, part, bound, level) : undefined;
  const slope =
    never === undefined || never === now
      ? bound === 'max'
        ? siemens
        : series
      : (1 / level - 1 - drop) / (place(never) - place(now));
  return (value) => {
    const share = 1 / (1 + drop + slope * (place(value) - place(now)));
    if (share <= level) return Number.POSITIVE_INFINITY;
    const resistance = bound === 'max' ? (series - now + value) / series : 1;
    return (-constant * resistance * share * (1 + drop) * Math.log1p(-level / share)) / time;
  };
}

/** The value of the part at which the link settles at the level exactly. */
function neverReached(facts: Facts, part: BoundedPart, bound: 'min' | 'max', level: number): number | undefined {
  const demand = demandOn({
    facts,
    part,
    end: 'min',
    bound,
    read: readSteadyRatio,
    measure: ratioDemand(level),
    model: bound === 'min' ? loadModel(facts, part, level) : undefined,
  });
  const { outcome } = solveBound(bound, part, [demand]);
  return outcome.kind === 'bound' ? outcome.value : undefined;
}
