import type { Car } from './car.js';
import type { Book } from './books.js';
import type { Circuit } from './wire.js';

export interface Mistake {
  readonly id: string;
  /** The sound car with the one mistake made; undefined where this car cannot have it. */
  readonly change: (car: Car) => Circuit | undefined;
  /** Every rule that the mistake breaks, true consequences included, by the contract's table of rules; silent ones are taken off. */
  readonly violates: readonly string[] | ((car: Car, book: Book) => readonly string[] | undefined);
  /** True consequences that one may or may not count; either answer will do. */
  readonly tolerated?: readonly string[];
  /** What cannot be told afterwards; nothing where not said. */
  readonly undetermined?: readonly string[];
}

/** A change without a fault, near to a mistake: nothing may be found. */
export function harmless(id: string, change: Mistake['change']): Mistake {
  return { id, change, violates: [] };
}

const SETTING = 0.96;
const ERROR = 0.005;
/** Tolerances of the divider's parts move a ratio by less than this; nearer to a bound nobody can label by hand. */
const TOO_NEAR = 0.01;

/**
 * What a rise that settles at a ratio breaks: the book's level, the setting with its error, and the timeout, because it never
 * ends. By the divider (common practice, no source). Undefined where the ratio is too near to a bound to tell without tolerances.
 */
export function riseFindings(ratio: number, { level }: Book): readonly string[] | undefined {
  const bounds: ReadonlyArray<readonly [string, number]> = [
    ['precharge-reaches-threshold', level],
    ['precharge-reaches-setting', SETTING + ERROR],
    ['precharge-completes-in-time', SETTING],
  ];
  if (bounds.some(([, bound]) => Math.abs(ratio - bound) < TOO_NEAR)) return undefined;
  return bounds.filter(([, bound]) => ratio < bound).map(([rule]) => rule);
}

/** Where the link settles behind the pre-charge resistor, with a resistance across it. */
export function divider(precharge: number, load: number): number {
  return load / (load + precharge);
}
