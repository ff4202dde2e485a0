/** How much one request may hold. Published by the HTTP floor, enforced by the schemas and readers. */
export const capacities = {
  /** Elements of one circuit. */
  elements: 200,
  /** Steps of one sequence. */
  steps: 100,
  /** Contacts named in one list of a step. */
  contactsPerStep: 200,
  /** Characters of an id, a node's, container's or relay's name. */
  nameLength: 64,
  /** Characters of a title or label. */
  labelLength: 200,
  /** Characters of a quantity given as text. */
  quantityLength: 64,
  /** Points of a resistance curve. */
  curvePoints: 100,
  /** Pairs of nodes that an indicator senses. */
  sensePairs: 50,
  /** Starts in a row that the pre-charge control may try. */
  attempts: 1000,
  /** Parameters that an event overrides. */
  eventParameters: 50,
  /** Faults answered for one reading; beyond, one more fault says so. */
  faults: 500,
  /** Pairs of nodes with a capacitor between them, in a circuit that is computed. Every pair is a state of its own. */
  capacitorPairs: 12,
  /** The same for one run over time, which searches nothing. */
  capacitorPairsOnce: 80,
  /** Rulesets that one request may be judged under. */
  rulesets: 10,
  /** Probes of one computation of transients. */
  probes: 50,
  /** Instants of one computation of transients, listed or evenly spread. */
  instants: 10_000,
  /** Probes times instants: the values of one answer. */
  values: 200_000,
} as const;
