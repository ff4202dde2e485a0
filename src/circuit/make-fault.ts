import type { Fault } from './fault.js';
import type { FaultCode } from './fault-codes.js';

/** A fault with a code that the table of codes knows. `detail` is a whole sentence. */
export function makeFault(pointer: string, code: FaultCode, detail: string, accepted?: string): Fault {
  return accepted === undefined ? { pointer, code, detail } : { pointer, code, detail, accepted };
}
