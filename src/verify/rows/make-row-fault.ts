import type { FaultCode } from '../../circuit/fault-codes.js';
import type { Fault } from '../../circuit/fault.js';
import { childPointer } from '../../circuit/pointer.js';
import type { RequestFaultCode } from '../fault-codes.js';

/** Where a row stands in a request. */
export const ROW = '#/row';

/** A fault at a column of the row. */
export function makeRowFault(
  column: string,
  code: FaultCode | RequestFaultCode,
  detail: string,
  accepted?: string,
): Fault {
  const pointer = childPointer(ROW, column);
  return accepted === undefined ? { pointer, code, detail } : { pointer, code, detail, accepted };
}
