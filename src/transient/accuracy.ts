import type { CompiledCircuit } from './compiled-circuit.js';

/** What the computation keeps to: relative, of a signal's largest value. */
export const ACCURACY = 1e-9;
/** Where loads of constant power are followed: 1e-9 of the power at every instant, of which a collapse leaves some ten times as much in a voltage. */
export const FOLLOWED_ACCURACY = 2e-8;

const WORST = Symbol('accuracy');

/** Remembers of a circuit that something computed of it may be off by more than usual. */
export function noteAccuracy({ kept }: CompiledCircuit, error: number): void {
  if (error > accuracyOf({ kept })) kept.set(WORST, error);
}

/** How far off, relative to its largest value, a signal computed of the circuit so far may be; never less than usual. */
export function accuracyOf({ kept }: Pick<CompiledCircuit, 'kept'>): number {
  return (kept.get(WORST) as number | undefined) ?? ACCURACY;
}
