import { CircuitFault } from '../../circuit/fault.js';
import { workCapacities } from './work-capacities.js';

/** A request that has been read, and what answering it is expected to cost. */
export interface Cost {
  /** Of what is costly: a circuit, as a rule. */
  readonly pointer: string;
  /** In the unit of `expectedWork`. */
  readonly work: number;
  /** What is costly about it and what would be cheaper, in whole sentences; asked only where it is, or proves to be, too much. */
  readonly costly: () => readonly string[];
}

/** Of an estimate no more is worth saying. */
const DIGITS = 2;

/**
 * Refuses a request that is expected to be more work than one may ask for, before any of it is done. Every call and every
 * item of a batch comes through here.
 * @throws CircuitFault (`too-costly`)
 */
export function refuseCostly({ pointer, work, costly }: Cost): void {
  const { expectedWork: most } = workCapacities;
  if (work <= most) return;
  // Upwards, so that it is never said to be what is allowed.
  const unit = 10 ** (Math.floor(Math.log10(work)) + 1 - DIGITS);
  const about = Math.ceil(work / unit) * unit;
  const detail = [
    `The work is expected to be about ${about}, an estimate from counts in states solved of an ordinary car; the largest allowed is ${most}.`,
    ...costly(),
  ].join(' ');
  throw new CircuitFault([{ pointer, code: 'too-costly', detail, accepted: `an expected work of at most ${most}` }]);
}
