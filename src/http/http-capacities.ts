import { type CapacityTable, valuesOf } from '../circuit/capacity-table.js';

/** Bounds of the HTTP floor, published by GET /v1/capacities beside those of a circuit. */
export const httpCapacityTable = {
  // A circuit within the other bounds needs a tenth of it.
  bodyBytes: [1_048_576, 'Bytes of a body that is not a batch.'],
  // The deepest legal request has fewer than ten.
  jsonDepth: [32, 'Levels of objects and lists within each other in a body.'],
  batchLineBytes: [1_048_576, 'Bytes of one line of a batch, or of one item of its list.'],
  batchRecordCharacters: [65_536, 'Characters of one record of a table.'],
  batchRecordLines: [50, 'Lines that one record of a table may spread over.'],
  batches: [8, 'Batches that one process works on at once.'],
  batchItemSeconds: [20, 'Seconds that the computation of one item of a batch may take.'],
  largeCallSeconds: [
    20,
    'Seconds that the computation of one call may take, where it is too large to be answered at once.',
  ],
  // With the time that it may take then it stays below the minute after which clients and proxies commonly give up.
  largeCallWaitSeconds: [
    20,
    'Seconds that a call which is too large to be answered at once may wait until its computation is begun.',
  ],
  // A wait of some seconds, as a rule.
  largeCallsPerThread: [
    4,
    'Calls too large to be answered at once that one process has under way, for each of its threads.',
  ],
  // Spreadsheets take no more (from memory).
  cellAddressCharacters: [2048, 'Characters of the address of a cell or a table of limits.'],
} as const satisfies CapacityTable;

export const httpCapacities = valuesOf(httpCapacityTable);
