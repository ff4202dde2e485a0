import type { ResolvedCircuit } from '../../src/circuit/model.js';
import type { SeparationScenario } from '../../src/facts/conditions.js';
import type { Facts, Fall, FallVoltage, Rise, Topology } from '../../src/facts/facts.js';
import { rulesetById } from '../../src/rules/ruleset-by-id.js';
import type { TimeFigure } from '../../src/facts/figure.js';
import { figure, timeFigure } from './figures.js';
import { soundCircuit } from './sound-car.js';

export const student2020 = rulesetById('student-ev-2020')!;
export const collegiate2024 = rulesetById('collegiate-ev-2024')!;

/** The sound car's facts as worked by hand from its values (see each figure); a case overrides what it is about. */
export interface Changes extends Partial<Omit<Facts, 'circuit' | 'topology' | 'rise'>> {
  readonly circuit?: ResolvedCircuit;
  readonly topology?: Partial<Topology>;
  readonly rise?: Partial<Rise>;
}

export function soundFacts(changes: Changes = {}): Facts {
  const { topology, rise, ...others } = changes;
  const facts: Facts = {
    circuit: soundCircuit(),
    conditions: student2020.conditions,
    topology: { ...soundTopology, ...topology },
    sequence: { steps: [], source: 'default' },
    openCircuitVoltage: figure(370, { min: 300, max: 400 }),
    rise: { ...soundRise, timeTo: () => rise?.timeToThreshold ?? soundRise.timeToThreshold, ...rise },
    falls: soundFalls(),
    exits: soundExits,
    exposures: [],
    coasting: [],
    pathsPastDisconnect: [],
    senseStates: [
      { state: 'disconnect-open', capacitor: 'c-link', sensedRatio: 0, capacitorRatio: 0, deceived: false },
      { state: 'rise', capacitor: 'c-link', sensedRatio: 0.978, capacitorRatio: 0.978, deceived: false },
    ],
    measuringPointStates: [
      { state: 'shutdown', capacitor: 'c-link', time: 0, capacitorVoltage: 400, reading: 399.2, error: 0.002 },
    ],
    accuracy: 1e-9,
    statesSolved: 0,
    assumptions: [],
    withValue: () => facts,
    vary: () => facts,
    at: () => facts,
    ...others,
  };
  return facts;
}

export const soundTopology: Topology = {
  containers: ['main'],
  poles: [
    { container: 'main', polarity: 'positive', node: 'bp' },
    { container: 'main', polarity: 'negative', node: 'bn' },
  ],
  outermost: { positive: 'bp', negative: 'bn' },
  isolationRelays: ['air-neg', 'air-pos'],
  prechargeRelays: ['k-pre'],
  prechargeResistors: ['r-pre'],
  dischargeResistors: ['r-dis'],
  dischargeContacts: ['k-dis'],
  disconnects: ['hvd'],
  bridgedRelays: ['air-pos'],
  completingRelays: ['air-neg'],
  vehicleCapacitors: ['c-link'],
  prechargePath: ['acc', 'air-neg', 'c-link', 'fuse-main', 'hvd', 'k-pre', 'r-pre'],
  contradictions: [],
  zoneOfNode: (node) => (['tp', 'tn', 'lp', 'mp', 'mn', 'dm'].includes(node) ? 'vehicle' : 'container'),
};

/** 47 kΩ ± 2 % behind 1 kΩ ± 5 %: 47/48, 46.06/47.11, 47.94/48.89. Time constant about 0.49 s; to 97 % about 2.4 s. */
const soundRise: Omit<Rise, 'timeTo'> = {
  steadyRatio: figure(47 / 48, { min: 46_060 / 47_110, max: 47_940 / 48_890 }),
  timeToThreshold: timeFigure(2.35, { min: 1.8, max: 3.2 }),
  timeConstant: figure(0.49, { min: 0.42, max: 0.565 }),
  peakCurrent: figure(0.37, { min: 300 / 1050, max: 400 / 950 }),
  resistorEnergy: figure(34, { min: 20, max: 44 }),
  resistorEnergyTotal: figure(null),
  resistorPeakPower: figure(137, { min: 86, max: 400 ** 2 / 950 }),
  resistorPeakTemperature: figure(40.6, { min: 40.3, max: 40.8 }),
  // 44 J into 60 J/K, again every 60 s for ever at 120 s of thermal time constant: 0.733 K · 2.541.
  attemptsPeakTemperature: () => figure(41.5, { min: 41, max: 41.9 }),
  currentAtSecondClosure: figure(110, { min: 60, max: 150 }),
  highestVoltage: () => figure(350, { min: 300, max: 400 }),
  singleMoves: () => [],
  resistor: 'r-pre',
};

/** 550 µF and 4.2 kΩ at worst from 400 V: 2.31 s · ln(400/60) = 4.38 s after the relays' release of 20 ms. */
export function fallVoltage(changes: Partial<FallVoltage> = {}): FallVoltage {
  return {
    id: 'c-link',
    kind: 'capacitor',
    nodes: ['lp', 'tn'],
    timeToLimit: timeFigure(3.65, { min: 2.5, max: 4.4 }),
    timeToLimitOtherClock: timeFigure(3.63, { min: 2.5, max: 4.38 }),
    timeToLimitMoves: () => [],
    voltageAtLimit: figure(31, { min: 15, max: 46 }),
    path: ['k-dis', 'r-dis'],
    ...changes,
  };
}

export function slowTime(seconds: number, parts: Partial<TimeFigure> = {}): Partial<FallVoltage> {
  return { timeToLimit: timeFigure(seconds, parts), timeToLimitOtherClock: timeFigure(seconds, parts) };
}

/** One fall in a state; `voltage: null` where there is none to watch. */
export function fall(
  scenario: SeparationScenario,
  voltage: FallVoltage | null = fallVoltage(),
  changes: Partial<Fall> = {},
): Fall {
  return {
    state: { scenario, id: scenario, open: [], gone: [] },
    required: true,
    startVoltage: figure(370, { min: 300, max: 400 }),
    voltages: voltage === null ? [] : [voltage],
    ...(voltage === null ? {} : { worst: voltage, worstWithoutFuses: voltage }),
    resistorEnergy: new Map([['r-dis', figure(34, { min: 20, max: 44 })]]),
    // 400²/3800 W at the most
    continuousPower: new Map([['r-dis', figure(34.2, { min: 21.4, max: 400 ** 2 / 3800 })]]),
    // Three of 44 J into 60 J/K
    repeatsPeakTemperature: () => figure(41.7, { min: 41, max: 42.2 }),
    voltageAfter: () => figure(200, { min: 100, max: 300 }),
    ...changes,
  };
}

/** The same voltage in every state that the student rulesets name, or per state where given. */
export function soundFalls(byState: Partial<Record<SeparationScenario, FallVoltage>> = {}): readonly Fall[] {
  const states = ['shutdown', 'disconnect-open', 'container-removed', 'all-separated'] as const;
  return states.map((scenario) => fall(scenario, byState[scenario] ?? fallVoltage()));
}

export const soundExits: Facts['exits'] = [
  {
    pole: { container: 'main', polarity: 'positive', node: 'bp' },
    path: { elements: ['fuse-main', 'air-pos'], nodes: ['bp', 'f', 'tp'], resistance: 0 },
    cutBy: 'air-pos',
    faults: [],
    missing: [],
  },
  {
    pole: { container: 'main', polarity: 'positive', node: 'bp' },
    path: { elements: ['fuse-main', 'k-pre', 'r-pre'], nodes: ['bp', 'f', 'pm', 'tp'], resistance: 1000 },
    cutBy: 'k-pre',
    faults: [],
    missing: [],
  },
  {
    pole: { container: 'main', polarity: 'negative', node: 'bn' },
    path: { elements: ['air-neg'], nodes: ['bn', 'tn'], resistance: 0 },
    cutBy: 'air-neg',
    faults: [],
    missing: [],
  },
];
