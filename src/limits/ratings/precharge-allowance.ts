import type { ResolvedCircuit, Resistor } from '../../circuit/model.js';
import type { Figure } from '../../facts/figure.js';
import { type Judgement, judgeAll, judgePower, undetermined, VIOLATED } from '../judgement.js';
import { permanentAllowance } from './permanent-allowance.js';
import { timedAllowance } from './timed-allowance.js';

/** What a pre-charge resistor stands: the peak of a rise, and the same power held in a rise into a short. */
export interface PrechargeAllowance {
  /** W, surely. */
  readonly atLeast: number;
  /** s of a rise into a short, all attempts in a row; absent where a timer ends every rise. */
  readonly short?: number;
  /** Fields that would raise what is sure to what it may be. */
  readonly missing: readonly string[];
  /** Fields without which no rating is enough. */
  readonly needed: readonly string[];
  readonly judge: (peakPower: Figure) => Judgement;
}

/**
 * A shorted link holds the power of the first instant until the timeout, as often as attempts are made. How long it cools in
 * between is what `retryInterval` leaves: not stated, one attempt may follow the other at once, or long after. The
 * instant itself is stood by the continuous power times the overload factor.
 */
export function prechargeAllowance(resistor: Resistor, circuit: ResolvedCircuit): PrechargeAllowance {
  const permanent = permanentAllowance(resistor, circuit);
  const overload = resistor.ratings?.overload;
  const factor = Math.max(1, overload?.factor ?? 1);
  const instant = {
    atLeast: permanent.atLeast * factor,
    atMost: overload === undefined ? Infinity : permanent.atMost * factor,
    missing: [...permanent.missing, ...(overload === undefined ? [`${resistor.pointer}/ratings/overload`] : [])],
  };
  const { timeout, attempts, method, retryInterval } = circuit.control.precharge ?? {};
  const base = `${circuit.pointer}/control/precharge`;
  const judgeInstant = (peak: Figure): Judgement => judgePower(peak, instant);
  // A timer closes the last relay onto the short: the resistor is then the least of it.
  if (method === 'timer') return { ...instant, needed: [], judge: judgeInstant };
  if (timeout === undefined) {
    const missing = [`${base}/timeout`];
    const judge = (peak: Figure): Judgement => judgeAll([judgeInstant(peak), undetermined(missing)]);
    return { ...instant, needed: missing, judge };
  }
  const short = timeout * (attempts ?? 1);
  const all = timedAllowance(resistor, circuit, timeout, { count: attempts ?? 1, interval: retryInterval ?? 0 });
  const one = timedAllowance(resistor, circuit, timeout);
  const missing = attempts === undefined ? [`${base}/attempts`] : [];
  const judgeShort = (peak: Figure): Judgement => {
    const whole = judgePower(peak, all);
    if (whole.satisfied === true) return missing.length > 0 ? undetermined(missing) : whole;
    if (judgePower(peak, one).satisfied === false) return VIOLATED;
    return whole.satisfied === false && retryInterval === undefined ? undetermined([`${base}/retryInterval`]) : whole;
  };
  return {
    atLeast: Math.min(instant.atLeast, all.atLeast),
    short,
    missing: [...instant.missing, ...all.missing],
    needed: missing,
    judge: (peak) => judgeAll([judgeInstant(peak), judgeShort(peak)]),
  };
}
