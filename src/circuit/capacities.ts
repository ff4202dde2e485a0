import { type CapacityTable, valuesOf } from './capacity-table.js';

/** How much one request may hold. Published by the HTTP floor, enforced by the schemas and readers. */
export const capacityTable = {
  elements: [200, 'Elements of one circuit.'],
  steps: [100, 'Steps of one sequence.'],
  contactsPerStep: [200, 'Contacts named in one list of a step.'],
  nameLength: [64, 'Characters of an id, or of the name of a node, container or relay.'],
  labelLength: [200, 'Characters of a title or label.'],
  quantityLength: [64, 'Characters of a quantity given as text.'],
  curvePoints: [100, 'Points of one resistance curve.'],
  sensePairs: [50, 'Pairs of nodes that an indicator senses.'],
  attempts: [1000, 'Starts in a row that the pre-charge control may try.'],
  eventParameters: [50, 'Parameters of the ruleset that an event overrides.'],
  faults: [500, 'Faults listed in one answer; beyond, one more fault says that there are more.'],
  // Every pair is a state of its own.
  capacitorPairs: [
    12,
    'Pairs of nodes with a capacitor between them, in a circuit that is verified. Capacitors side by side count once.',
  ],
  // More, since nothing is searched.
  capacitorPairsOnce: [
    80,
    'Pairs of nodes with a capacitor between them, in a circuit that is run over time (POST /v1/transients).',
  ],
  rulesets: [10, 'Rulesets that one request may be judged under.'],
  probes: [50, 'Probes of one computation of transients.'],
  instants: [10_000, 'Instants of one computation of transients, listed or evenly spread.'],
  values: [200_000, 'Values of one answer of transients: probes times instants.'],
} as const satisfies CapacityTable;

export const capacities = valuesOf(capacityTable);
