/**
 * Codes of faults that only show when a whole request is read or its circuit is run; those of a circuit's description are in
 * src/circuit/fault-codes.ts.
 */
export const requestFaultCodes = {
  'unknown-ruleset': {
    title: 'No such ruleset',
    explanation: 'The request names no ruleset, or one that the service does not have. GET /v1/rulesets lists them.',
  },
  'ruleset-or-rulesets': {
    title: 'Not exactly one of ruleset and rulesets',
    explanation: 'A request is judged under one ruleset (`ruleset`) or under several (`rulesets`), never under both.',
  },
  'probe-value-count': {
    title: 'Not exactly one quantity for a probe',
    explanation: 'A probe watches exactly one of voltage, current, power and temperature.',
  },
  'times-or-samples': {
    title: 'Times and samples together',
    explanation: 'Instants are either listed (`times`), or spread evenly (`duration` with `samples`), never both.',
  },
  'unordered-times': {
    title: 'Times out of order',
    explanation: 'Listed times must not fall from one to the next.',
  },
  'row-or-circuit': {
    title: 'Not exactly one of row and circuit',
    explanation: 'A car is described by a circuit (`circuit`) or by one flat row (`row`), never by both.',
  },
  'duplicate-column': {
    title: 'Two columns of one meaning',
    explanation:
      'Two headings of a flat row stand for the same column; case, spaces and hyphens do not tell them apart.',
  },
  'unsuitable-cell': {
    title: 'Cell that does not fit the rest of the row',
    explanation:
      'The cell can be read, but not together with what other cells of the row say. GET /v1/rows explains each.',
  },
  'undecodable-text': {
    title: 'Text in another encoding',
    explanation:
      'The cell has bytes that are not text in the encoding of the file, which is UTF-8 unless its charset is named.',
  },
  'decimal-point': {
    title: 'Point in a number with a decimal comma',
    explanation: 'With `decimal=comma` a point could be meant as a thousands mark, so none is taken.',
  },
  'ideal-loop': {
    title: 'Loop without resistance',
    explanation:
      'Sources or capacitors at different voltages meet in a loop without any resistance, which would need infinite current. State a resistance (for a capacitor an esr) of at least one element of the loop.',
  },
  'too-many-changes': {
    title: 'Circuit that switches without end',
    explanation:
      'Loads or machines change the state of the circuit too often to be followed, or at one instant without end: mostly a load that stops at the voltage at which it starts, or that wakes at a voltage at which what feeds it cannot bear what it draws.',
  },
  'too-costly': {
    title: 'Too much work',
    explanation:
      'The work is counted, or estimated from counts, before it begins; the figure is above the largest allowed. GET /v1/capacities has it.',
  },
} as const;

export type RequestFaultCode = keyof typeof requestFaultCodes;
