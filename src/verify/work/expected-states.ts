import type { Load, ResolvedCircuit } from '../../circuit/model.js';
import { compileCircuit, type Parameter } from '../../transient/compiled-circuit.js';
import { isSeriesParallel } from '../../transient/series-parallel.js';
import { capacitorPairs } from './capacitor-pairs.js';

/*
 * How the numbers were found: the states solved (`spend` in src/transient/work-budget.ts) in whole verifications were counted
 * for the example cars, and for one of them (sound-rear-pack: 21 parts, 23 ranges, 200 to 270 states) with more parts put in: 20,
 * 80 and 178 meters side by side or resistors in a row, with and without tolerances; 1, 3, 6 and 11 capacitors behind cables of
 * their own; loads of each kind. Counts and not times, so that they are the same on every machine; each sum is within a factor
 * of four of what was counted. Of what a circuit's shape leaves unproved a bridge counts, and nothing else is told.
 */

/** Whatever the circuit: the nominal runs, and those with parts removed or shorted. */
const EVERY_CIRCUIT = 60;
/** For each element: 350 states more for 178 meters without a range. */
const EVERY_ELEMENT = 2;
/** For each value with a range, which is moved by itself to see what it does: 900 more for the ranges of 178 meters, 2700 in a row. */
const EVERY_RANGE = 7;
/**
 * For each value with a range and each further pair of nodes with a capacitor, or further accumulator: with more than one state
 * or source few directions are proved, and the ranges are searched. 2950 states more for 11 capacitors and 23 ranges.
 */
const SEARCHED_RANGE = 10;
/**
 * For each value with a range where the graph is not series-parallel: no direction is proved of a bridge, and all ranges are
 * searched. 17 000 states were counted with a mesh of 6 resistors (29 ranges), 27 000 with one of 15 (38), but 1000 for a bypassed
 * disconnect, of which a bound is known: that one is taken for more than it is.
 */
const BRIDGED_RANGE = 300;
/**
 * For each value with a range and each further resistor that may be one of several in a discharge path, since every one has
 * limits of its own: 1000 states more for 5 such resistors in a row, 7400 for 20; beyond that none are computed for them.
 */
const SEARCHED_LIMIT = 7.5;
/** Resistors without a stated role that an ordinary car has: each stands by itself, and none of them costs more. */
const ORDINARY_UNLABELLED = 4;
const MOST_UNLABELLED = 20;
/** Where a timer decides, the time at which it may is found by trial: 440 to 850 more. */
const TIMER = 300;
/** For a resistance in the rise that always draws: 100 more were counted. */
const STEADY_LOAD = 150;
/**
 * For a load of constant current, or one that sleeps and wakes: 200 to 900 were counted. It leaves directions of its neighbours
 * unproved, and one that swings may do so thousands of times in a run.
 */
const BENT_LOAD = 700;
/** For one of constant power, followed step by step in every run: 19 000 to 270 000 were counted, a step as ten. */
const POWER_LOAD = 20_000;

/** States that one verification of a circuit under one ruleset is expected to solve, from counts alone. */
export function expectedStates(circuit: ResolvedCircuit): number {
  const { elements, parameters } = compileCircuit(circuit);
  const ranges = parameters.filter(hasRange).length;
  const accumulators = elements.filter(({ kind }) => kind === 'accumulator').length;
  const further = Math.max(0, capacitorPairs(circuit) - 1) + Math.max(0, accumulators - 1);
  const loads = circuit.elements.filter((element) => element.kind === 'load');
  const unlabelled = circuit.elements.filter((element) => element.kind === 'resistor' && element.role === undefined);
  const inRow = Math.max(0, Math.min(unlabelled.length, MOST_UNLABELLED) - ORDINARY_UNLABELLED);
  return (
    EVERY_CIRCUIT +
    EVERY_ELEMENT * elements.length +
    EVERY_RANGE * ranges +
    SEARCHED_RANGE * ranges * further +
    SEARCHED_LIMIT * ranges * inRow +
    (isSeriesParallel(elements) ? 0 : BRIDGED_RANGE * ranges) +
    (circuit.control.precharge?.method === 'timer' ? TIMER : 0) +
    loads.reduce((sum, load) => sum + statesOf(load), 0)
  );
}

/** Falls are computed without loads, so only the rise counts. */
function statesOf(load: Load): number {
  if (!load.activeIn.includes('precharge')) return 0;
  if (load.power !== undefined) return POWER_LOAD;
  return load.current !== undefined || load.startsAbove > 0 ? BENT_LOAD : STEADY_LOAD;
}

/** True where a value is moved through a range: a stated one, or the one that rulesets assume where none is stated. */
function hasRange({ field, stated, range }: Parameter): boolean {
  if (range.min < range.max) return true;
  return stated && !range.toleranceStated && (field === 'resistance' || field === 'capacitance');
}
