import type { ResolvedCircuit } from '../../circuit/model.js';
import type { StockPart } from '../../limits/stock/stock-part.js';
import { expectedStates } from './expected-states.js';
import { stateCost } from './state-cost.js';

/** What of a request multiplies the work of one verification. */
export interface WorkShape {
  /** How many the circuit is judged under. */
  readonly rulesets?: number;
  /** Whether no limits are asked for. */
  readonly findingsOnly?: boolean;
  readonly sensitivities?: boolean;
  readonly stock?: readonly StockPart[];
}

/** Every part moved by itself for every figure: 394 states where 200 were counted without. */
const WITH_SENSITIVITIES = 2;
/** Combinations of parts at hand that are computed or judged in the place of one resistor: the bounds in find-stock.ts together. */
const MOST_COMBINATIONS = 90;
/** Each costs about this share of a verification: 362, 725, 2662 and 7471 states were counted for 1, 2, 5 and 20 kinds. */
const SHARE_OF_COMBINATION = 0.2;
/** Resistors that have a window in an ordinary car: pre-charge and discharge. */
const WINDOWS = 2;

/**
 * What a verification (or a part of one: findings, limits) is expected to cost, from counts alone and before any of it is
 * done. The unit is one solved state of an ordinary car, some 80 µs on the machine of the bench. A rough figure: it tells what
 * may run beside others' requests from what may not (`SMALL_WORK`), and refuses what would hardly come to an end
 * (`workCapacities`). Behind it stand the count of what is really solved and the time that a call may take.
 */
export function expectedWork(circuit: ResolvedCircuit, shape: WorkShape = {}): number {
  const { rulesets = 1, findingsOnly = false, sensitivities = false, stock = [] } = shape;
  const combinations = WINDOWS * Math.min(MOST_COMBINATIONS, stock.length ** 2 + 2 * stock.length);
  const verifications = (sensitivities ? WITH_SENSITIVITIES : 1) + SHARE_OF_COMBINATION * combinations;
  return rulesets * verifications * expectedStates(circuit, findingsOnly) * stateCost(circuit);
}
