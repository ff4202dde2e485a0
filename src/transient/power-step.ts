import { collocationOn } from './collocation.js';
import { type Fitted, fitPower } from './fit-power.js';
import { type Port, PortResponses } from './port-responses.js';
import { powerBalance } from './power-balance.js';
import { FADINGS, type PowerCurrent } from './power-current.js';
import type { StateSolution } from './state-solution.js';

/** A stretch of time over which the loads' currents are followed closely enough. */
export interface PowerStep {
  readonly solution: StateSolution;
  /** s; Infinity: the solution holds for ever. */
  readonly length: number;
  /** s, a good length to try next. */
  readonly next: number;
}

/** Relative error of a load's power that is allowed anywhere in a step. */
const TOLERANCE = 1e-9;
/** s; a step this short follows a collapse of the voltage, not a transient. */
const SHORTEST = 1e-12;
/** e^(−rate·t) at the end of a step of limited length. */
const LIMITED = collocationOn(0.85);
const ENDLESS = collocationOn(0);
/** Relative distance from where a load settles below which it may as well be there already. */
const NEAR = 1e-3;
/** Of the time in which it settles: steps shorter than this show that it is not yet on the way there. */
const ON_THE_WAY = 0.5;

/**
 * Follows loads of constant power over a step. i = P/v is no sum of exponentials, so each port's current is a polynomial in
 * e^(−rate·t), pinned where it agrees with the voltage that it leaves itself, the circuit solved exactly with it. Between those
 * points the error decides: the step is shortened until it fits. The last step, from which on all settles, never ends.
 *
 * @param solve the state with the loads' currents given, by element index
 * @param length s to try first
 * @returns undefined where a load has no voltage at which it could draw its power: behind an ESR it may jump to below its knee
 */
export function powerStep(
  ports: readonly Port[],
  solve: (currents: ReadonlyMap<number, PowerCurrent>) => StateSolution,
  length: number,
): PowerStep | undefined {
  const responses = PortResponses.of(solve(probes(ports)), ports);
  const now = responses && balanced(ports, responses.idle(0), responses.resistances(0));
  if (responses === undefined || now === undefined) return undefined;
  const settling = settlingRate(ports, responses, now, length);
  if (settling !== undefined) {
    const fitted = fitPower(ports, responses, ENDLESS, settling);
    if (fitted !== undefined && fitted.error <= TOLERANCE)
      return { solution: solve(currentsOf(ports, fitted, settling)), length: Infinity, next: length };
  }
  for (let step = length; step > SHORTEST; ) {
    const rate = -Math.log(LIMITED.end) / step;
    const fitted = fitPower(ports, responses, LIMITED, rate);
    const factor = fitted === undefined ? 0.25 : 0.9 * (TOLERANCE / fitted.error) ** (1 / (FADINGS + 1));
    if (fitted !== undefined && fitted.error <= TOLERANCE)
      return {
        solution: solve(currentsOf(ports, fitted, rate)),
        length: step,
        next: step * Math.min(8, Math.max(1, factor)),
      };
    step *= Math.min(0.7, Math.max(0.1, factor));
  }
  // Nothing fits: the voltage collapses faster than can be followed. Go on with what the loads draw now.
  return { solution: solve(heldCurrents(ports, now)), length: SHORTEST, next: SHORTEST };
}

/** 1 A in the first term of the first load of each port. */
function probes(ports: readonly Port[]): Map<number, PowerCurrent> {
  const first = Array.from({ length: FADINGS }, (_, k) => (k === 0 ? 1 : 0));
  const none = first.map(() => 0);
  return new Map(
    ports.flatMap(({ loads }) =>
      loads.map(({ element }, k) => [element, { constant: 0, fading: k === 0 ? first : none, rate: 1 }] as const),
    ),
  );
}

/** V of each port at which constant currents draw each power. */
function balanced(
  ports: readonly Port[],
  idle: readonly number[],
  resistances: readonly (readonly number[])[],
): number[] | undefined {
  return powerBalance(
    idle,
    resistances,
    ports.map(({ power }) => power),
  );
}

/**
 * 1/s at which the ports come to where they settle, to first order; undefined: they do not, or are not yet on the way.
 *
 * A load of constant power is there a negative resistance of −v²/P, which slows what it stands on by 1 − R·P/v².
 */
function settlingRate(
  ports: readonly Port[],
  responses: PortResponses,
  now: readonly number[],
  length: number,
): number | undefined {
  const resistances = responses.resistances(Infinity);
  const ends = balanced(ports, responses.idle(Infinity), resistances);
  if (ends === undefined) return undefined;
  let slowing = 0;
  for (const row of resistances) {
    const share = row.reduce((sum, volts, from) => {
      const { power } = ports[from] as Port;
      return sum + (Math.abs(volts) * power) / (ends[from] as number) ** 2;
    }, 0);
    slowing = Math.max(slowing, share);
  }
  const rate = responses.slowest * (1 - slowing);
  if (!(rate > 0)) return undefined;
  const near = ends.every((end, p) => Math.abs((now[p] as number) - end) <= NEAR * end);
  return near || length * rate > ON_THE_WAY ? rate : undefined;
}

function currentsOf(ports: readonly Port[], { currents }: Fitted, rate: number): Map<number, PowerCurrent> {
  return new Map(
    ports.flatMap(({ loads }, p) =>
      loads.map(({ element, share }) => {
        const [constant, ...fading] = (currents[p] as readonly number[]).map((amperes) => amperes * share);
        return [element, { constant: constant as number, fading, rate }] as const;
      }),
    ),
  );
}

function heldCurrents(ports: readonly Port[], now: readonly number[]): Map<number, PowerCurrent> {
  const currents = ports.map(({ power }, p) => [power / (now[p] as number), ...new Array<number>(FADINGS).fill(0)]);
  return currentsOf(ports, { currents, error: 0 }, 1);
}
