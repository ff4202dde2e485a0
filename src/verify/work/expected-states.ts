import type { ResolvedCircuit } from '../../circuit/model.js';
import { compileCircuit, type Parameter } from '../../transient/compiled-circuit.js';
import { isSeriesParallel } from '../../transient/series-parallel.js';
import { furtherSources } from './further-sources.js';
import { loadCounts } from './load-counts.js';

/*
 * How the numbers were found: the states solved (`spend` in src/transient/work-budget.ts) in whole verifications were counted
 * for the example cars, and for one of them (sound-rear-pack: 21 parts, 23 ranges, 140 states) with more parts put in: 20,
 * 80 and 178 meters side by side or resistors in a row, with and without tolerances; 1, 3, 6 and 11 capacitors behind cables of
 * their own; loads of each kind. Counts and not times, so that they are the same on every machine; each sum is within a factor
 * of four of what was counted. Of what a circuit's shape leaves unproved a bridge counts, and nothing else is told.
 *
 * Among many parts at once, and for loads among several capacitors, times were taken too (the same car, up to 12 pairs of nodes
 * with capacitors, 20 loads that start and stop, 10 of constant power): nearly all within a factor of three.
 */

/** Whatever the circuit: the nominal runs, and those with parts removed or shorted. */
const EVERY_CIRCUIT = 60;
/** For each element: 270 states more for 178 meters without a range. */
const EVERY_ELEMENT = 2;
/** For each value with a range, which is moved by itself to see what it does: 180 more for the ranges of 170 meters, 500 in a row. */
const EVERY_RANGE = 2;
/**
 * For each value with a range and each further pair of nodes with a capacitor, or further accumulator: with more than one state
 * or source few directions are proved, and the ranges are searched. 4200 states more for 11 capacitors and 23 ranges.
 */
const SEARCHED_RANGE = 15;
/** Ranges that are searched so, at most: with 140 toleranced meters beside 11 capacitors there were no more states than without. */
const MOST_SEARCHED = 60;
/**
 * For each value with a range where the graph is not series-parallel: no direction is proved of a bridge, and all ranges are
 * searched. 17 000 states were counted with a mesh of 6 resistors (29 ranges), 27 000 with one of 15 (38), but 1000 for a bypassed
 * disconnect, of which a bound is known: that one is taken for more than it is.
 */
const BRIDGED_RANGE = 300;
/**
 * For each value with a range and each further resistor that may be one of several in a discharge path, since every one has
 * limits of its own: 400 to 1100 states more for 5 such resistors in a row, 1300 to 4000 for 20, twice as many for 40.
 */
const SEARCHED_LIMIT = 3;
/** Resistors without a stated role that an ordinary car has: each stands by itself, and none of them costs more. */
const ORDINARY_UNLABELLED = 4;
const MOST_UNLABELLED = 20;
/** Where a timer decides, the time at which it may is found by trial: 440 to 850 more. */
const TIMER = 300;
/** For a resistance or constant current in the rise that always draws: 100 more were counted. */
const STEADY_LOAD = 150;
/**
 * For one that sleeps and wakes: 700 were counted beside one capacitor, which bounds it, and 1500 to 1700 for each of several
 * beside more than one. It leaves directions of its neighbours unproved, and one that swings may do so thousands of times in a run.
 */
const BENT_LOAD = 1400;
/**
 * For the first of constant power, and for each further: followed step by step in every run. The time of one was that of 17 000
 * to 75 000 states, that of ten together of 90 000.
 */
const POWER_LOAD = 20_000;
const FURTHER_POWER_LOAD = 8000;
/** Findings alone need about this share of what is searched: the rest is for the limits. */
const FINDINGS_SHARE = 1 / 4;

/**
 * States that one verification of a circuit under one ruleset is expected to solve, from counts alone.
 * @param findingsOnly where no limits are asked for
 */
export function expectedStates(circuit: ResolvedCircuit, findingsOnly = false): number {
  const { elements, parameters } = compileCircuit(circuit);
  const ranges = parameters.filter(hasRange).length;
  const further = furtherSources(circuit);
  const unlabelled = circuit.elements.filter((element) => element.kind === 'resistor' && element.role === undefined);
  const inRow = Math.max(0, Math.min(unlabelled.length, MOST_UNLABELLED) - ORDINARY_UNLABELLED);
  const { steady, bent, powers, sleepers } = loadCounts(circuit);
  const searched =
    SEARCHED_LIMIT * ranges * inRow +
    SEARCHED_RANGE * Math.min(ranges, MOST_SEARCHED) * further +
    (isSeriesParallel(elements) ? 0 : BRIDGED_RANGE * ranges) +
    BENT_LOAD * bent +
    (powers === 0 ? 0 : POWER_LOAD + FURTHER_POWER_LOAD * (powers - 1)) * amongCapacitors(further, sleepers > 0);
  return (
    EVERY_CIRCUIT +
    EVERY_ELEMENT * elements.length +
    EVERY_RANGE * ranges +
    (circuit.control.precharge?.method === 'timer' ? TIMER : 0) +
    STEADY_LOAD * steady +
    (findingsOnly ? FINDINGS_SHARE : 1) * searched
  );
}

/**
 * How many times as long a load of constant power takes among further capacitors, for the states that it takes. Of one that draws
 * from the start the end is proved: whole verifications took 1, 3, 4 and 12 times for none, 1, 3 and 11. Of one that sleeps it
 * is searched: findings took 1, 4 and 30 times for 1, 3 and 11.
 */
function amongCapacitors(further: number, asleep: boolean): number {
  return asleep ? 1 + further + further ** 2 / 5 : 1 + further / 8;
}

/** True where a value is moved through a range: a stated one, or the one that rulesets assume where none is stated. */
function hasRange({ field, stated, range }: Parameter): boolean {
  if (range.min < range.max) return true;
  return stated && !range.toleranceStated && (field === 'resistance' || field === 'capacitance');
}
