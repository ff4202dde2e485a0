/** Bounds of the HTTP floor, published by GET /v1/capacities beside those of a circuit. */
export const httpCapacities = {
  /** Bytes of a body. A circuit within the other bounds needs a tenth of it. */
  bodyBytes: 1_048_576,
  /** Levels of objects and lists in a body. The deepest legal request has fewer than ten. */
  jsonDepth: 32,
  /** Bytes of one line, or of one item of a list, of a batch. */
  batchLineBytes: 1_048_576,
  /** Characters of one record of a table. */
  batchRecordCharacters: 65_536,
  /** Lines that one record of a table may spread over. */
  batchRecordLines: 50,
  /** Batches that one process works on at once. */
  batches: 8,
  /** s that the computation of one item of a batch may take. */
  batchItemSeconds: 20,
  /** s that the computation of one call may take, where it is too large to be answered at once. */
  largeCallSeconds: 20,
  /**
   * s that such a call may wait until its computation is begun. With the time that it may take then it stays below the
   * minute after which clients and proxies commonly give up.
   */
  largeCallWaitSeconds: 20,
  /** Such calls that one process has under way at once, for each of its threads: a wait of some seconds, as a rule. */
  largeCallsPerThread: 4,
  /** Characters of the address of a cell or a table of limits; spreadsheets take no more (from memory). */
  cellAddressCharacters: 2048,
} as const;
