import type { Fault } from '../../src/circuit/index.js';

/** Pointer and code of each fault of a reading; `[]` where it has none. */
export function faultsOf(reading: object): Array<[string, string]> {
  return 'faults' in reading ? (reading.faults as Fault[]).map(({ pointer, code }) => [pointer, code]) : [];
}
