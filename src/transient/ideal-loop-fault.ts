import { CircuitFault } from '../circuit/fault.js';
import type { CompiledElement } from './compiled-circuit.js';

const CODE = 'ideal-loop';

/** The fault of a loop without resistance that would need infinite current; one entry an element of the loop. */
export function idealLoopFault(loop: readonly CompiledElement[], step?: number): CircuitFault {
  const ids = loop.map(({ id }) => id).join(', ');
  const where = step === undefined ? '' : ` in step ${step.toString()}`;
  return new CircuitFault(
    loop.map(({ source }) => ({
      pointer: source.pointer,
      code: CODE,
      detail: `Without any resistance the loop ${ids} would need infinite current${where}.`,
      accepted: 'a resistance (or an esr) above 0 in at least one element of the loop',
    })),
  );
}

/** Whether a computation was refused for a loop without resistance. */
export function isIdealLoop(error: unknown): boolean {
  return error instanceof CircuitFault && error.faults.every(({ code }) => code === CODE);
}
