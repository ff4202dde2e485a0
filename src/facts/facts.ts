/**
 * Everything the rules and limits may know of a circuit, computed once and on demand. Interfaces only: `create-facts.ts`
 * builds them. All values SI; all ids and paths in a fixed order, so that the same circuit gives the same bytes.
 */
import type { ConductingPath } from '../circuit/graph.js';
import type { ResolvedCircuit, Step, Zone } from '../circuit/model.js';
import type { Conditions, SeparationScenario } from './conditions.js';
import type { Figure, TimeFigure } from './figure.js';

export type { ConductingPath };

export interface Pole {
  readonly container: string;
  readonly polarity: 'positive' | 'negative';
  readonly node: string;
}

/** A way out of a container. */
export interface PoleExit {
  readonly pole: Pole;
  /** From the pole to the first node outside, as if every contact on it were closed. */
  readonly path: ConductingPath;
  /** The contact that cuts it properly (normally open, electromechanical, inside the container; an isolation relay, or the pre-charge relay in the pre-charge branch); absent: nothing does. */
  readonly cutBy?: string;
  /** What is wrong with the contact that should cut it. */
  readonly faults: ReadonlyArray<'none' | 'rest-closed' | 'solid-state' | 'outside-container' | 'wrong-role'>;
  /** Pointers of fields not stated that would settle it (construction, role). */
  readonly missing: readonly string[];
}

/** A node outside a container that hangs on a pole with every contact at rest. */
export interface Exposure {
  readonly pole: Pole;
  readonly node: string;
  /** The elements outside the container (or in another) that touch the node. */
  readonly touches: readonly string[];
  readonly path: ConductingPath;
  /** Effective resistance from the pole to the node in Ω at the smallest values. */
  readonly resistance: number;
  /** A, what the accumulator's highest voltage drives through it and the stated internal resistance into a short; Infinity where neither limits it. */
  readonly current: number;
  /** True where a conductor ahead of the path's resistance is itself outside the container. */
  readonly aheadOutside: boolean;
  /** Resistance is below the ruleset's Ω/V times the highest voltage, or a conductor ahead of it is outside. */
  readonly dangerous: boolean;
  readonly missing: readonly string[];
}

/** One state after shutdown. `container` is set where a single one of several leaves. */
export interface SeparationState {
  readonly scenario: SeparationScenario;
  readonly container?: string;
  /** Stable label: `disconnect-open`, `container-removed:rear`. */
  readonly id: string;
  /** Contacts, connectors and disconnects that are open once everything has released. */
  readonly open: readonly string[];
  /** Elements that leave the car (where no connector is declared). */
  readonly gone: readonly string[];
}

/** What becomes of a figure, or of all of them, with one part at the ends of its range and all others at nominal. */
export interface SingleMove<T> {
  /** Element id (and field where not its defining one), as in a figure's `at`. */
  readonly element: string;
  readonly low: T;
  readonly high: T;
}

/** The voltage to be watched in a fall: a capacitor's own, the link's across several in series, or between two plug pins of a container that has left. */
export interface FallVoltage {
  readonly id: string;
  readonly kind: 'capacitor' | 'link' | 'plug-pins';
  readonly nodes: readonly [string, string];
  /** Measured from the start of the ruleset's clock. */
  readonly timeToLimit: TimeFigure;
  /** Measured from the other reading of the clock. */
  readonly timeToLimitOtherClock: TimeFigure;
  /** s to the limit by the ruleset's clock with each part moved alone; Infinity: never. */
  timeToLimitMoves(): readonly SingleMove<number>[];
  /** V at the ruleset's time limit. */
  readonly voltageAtLimit: Figure;
  /** Resistive elements by which it discharges in this state, in order of id; empty: nothing discharges it. */
  readonly path: readonly string[];
}

export interface Fall {
  readonly state: SeparationState;
  /** True where the ruleset names this state. */
  readonly required: boolean;
  /** V that stands on the link at the instant of release. */
  readonly startVoltage: Figure;
  readonly voltages: readonly FallVoltage[];
  /** The slowest of `voltages`; absent where there is no capacitor and no pin to watch. */
  readonly worst?: FallVoltage | undefined;
  /** J that each discharge resistor takes in one fall, by element id. */
  readonly resistorEnergy: ReadonlyMap<string, Figure>;
  /** W in each discharge resistor with the highest voltage held on the link. */
  readonly continuousPower: ReadonlyMap<string, Figure>;
  /**
   * °C that a discharge resistor gets to in `count` falls, `interval` s from one to the next, the last one whole; reason
   * `no-path` where it is not in this fall.
   */
  repeatsPeakTemperature(element: string, count: number, interval: number): Figure;
  /** The worst voltage with every fuse taken out of the circuit. */
  readonly worstWithoutFuses?: FallVoltage | undefined;
  /** V between two nodes so many s after the shutdown circuit has opened; size, without sign. */
  voltageAfter(nodes: readonly [string, string], seconds: number): Figure;
}

/** A fall with the machines turning, in one separation state that the ruleset names. */
export interface CoastingFall {
  /** The state's id. */
  readonly state: string;
  /** The capacitor that takes longest at nominal values. */
  readonly capacitor: string;
  /** Of the slowest capacitor, from the start of the ruleset's clock. */
  readonly timeToLimit: TimeFigure;
}

/** What stands on the link when the order that is judged closes the last isolation relay. */
export interface LastClosure {
  /** Index of the step that closes it. */
  readonly step: number;
  /** The ratio that it waits for where the order until then is the plain rise; absent: the order moves more on the way. */
  readonly waitsFor?: number;
  /** s from the start of the order; reason `never` where the step is never reached. */
  readonly time: TimeFigure;
  /** Link voltage just before, ratio to the open-circuit voltage; reason `never` likewise. */
  readonly ratio: Figure;
  /** The highest that the ratio has been by then, at nominal values; null: the step is never reached. */
  readonly highestRatio: number | null;
  /**
   * The lowest that the ratio has been between reaching the ruleset's level and the closing: the level itself where it never
   * sags below it. Where it is not reached by then, the ratio at the closing. Reason `never` likewise.
   */
  readonly lowestRatio: Figure;
  /** A through the relays that close, largest of them, a comparison's error taken off the levels that steps wait for. */
  readonly current: Figure;
}

export interface Topology {
  /** In order of name; every container any element names or sits in. */
  readonly containers: readonly string[];
  readonly poles: readonly Pole[];
  /** Outermost poles of all accumulators together with every contact closed. */
  readonly outermost: { readonly positive: string; readonly negative: string };
  /** By role, else inferred. Ids in order. */
  readonly isolationRelays: readonly string[];
  readonly prechargeRelays: readonly string[];
  readonly prechargeResistors: readonly string[];
  readonly dischargeResistors: readonly string[];
  /** Contacts in series with a discharge resistor. */
  readonly dischargeContacts: readonly string[];
  readonly disconnects: readonly string[];
  /** Isolation relays that the pre-charge branch bridges: the last to close. */
  readonly bridgedRelays: readonly string[];
  /** The others: they complete the pre-charge path. */
  readonly completingRelays: readonly string[];
  /** Capacitors on the car's side of the isolation relays, wherever built in. */
  readonly vehicleCapacitors: readonly string[];
  /** Elements that carry the rise, from pole to pole. */
  readonly prechargePath: readonly string[];
  /** True where current can enter the link during the rise with every pre-charge relay open. */
  readonly prechargeBypass?: ConductingPath;
  /** `elsewhere` where a label contradicts what the circuit does: `r1 is called …`. */
  readonly contradictions: ReadonlyArray<{ readonly element: string; readonly detail: string }>;
  zoneOfNode(node: string): Zone;
}

export interface Rise {
  /** Equilibrium of the link in the rise, ratio to the open-circuit voltage. */
  readonly steadyRatio: Figure;
  /** To the setting (`control.precharge.threshold`), else to the ruleset's level. s. */
  readonly timeToThreshold: TimeFigure;
  /** s to any ratio of the open-circuit voltage. */
  timeTo(ratio: number): TimeFigure;
  readonly timeConstant: Figure;
  /** A through the pre-charge resistor. */
  readonly peakCurrent: Figure;
  /** J in the pre-charge resistor up to the threshold. */
  readonly resistorEnergy: Figure;
  /** J in it if left on for ever; null (never ends) where a load keeps drawing. */
  readonly resistorEnergyTotal: Figure;
  /** W */
  readonly resistorPeakPower: Figure;
  /** °C in one rise, which ends at the threshold, or at the stated timeout of the comparison where that comes first. */
  readonly resistorPeakTemperature: Figure;
  /**
   * °C at the hottest of `count` such rises (Infinity: without end), `interval` s from start to start, or back to back where a rise
   * lasts longer.
   */
  attemptsPeakTemperature(count: number, interval: number): Figure;
  /** A through the last relay at its closing. */
  readonly currentAtSecondClosure: Figure;
  /** V, the highest size of the voltage between two nodes. */
  highestVoltage(nodes: readonly [string, string]): Figure;
  /** The same rise, its nominal figures only, with each part moved alone. */
  singleMoves(): readonly SingleMove<Rise>[];
  /** The resistor the figures speak of; absent where none carries the rise. */
  readonly resistor?: string | undefined;
}

/** What the comparison senses against what stands on a capacitor, in one state. */
export interface SenseState {
  readonly state: string;
  /** Ratio of sensed link voltage to sensed accumulator voltage in equilibrium. */
  readonly sensedRatio: number | null;
  readonly capacitor: string;
  /** Ratio of the capacitor's own voltage to the open-circuit voltage. */
  readonly capacitorRatio: number;
  /** True where the comparison is satisfied while the capacitor is below the threshold. */
  readonly deceived: boolean;
}

/** A 10 MΩ voltmeter at the measuring points against a vehicle-side capacitor above the limit, in one separation state. */
export interface MeasuringPointState {
  readonly state: string;
  readonly capacitor: string;
  /** s from the release to the instant at which the two differ most; null: they come to that in the end. */
  readonly time: number | null;
  readonly capacitorVoltage: number;
  /** null: the points read nothing of it (an island of their own). */
  readonly reading: number | null;
  /** By how much the reading is below the capacitor's voltage, relative to it; 0 where it is not. */
  readonly error: number;
}

export interface Facts {
  readonly circuit: ResolvedCircuit;
  readonly conditions: Conditions;
  readonly topology: Topology;
  /** The order that was judged, and whose it is. */
  readonly sequence: { readonly steps: readonly Step[]; readonly source: 'stated' | 'default' };
  /** V between the outermost poles, every accumulator at its range. */
  readonly openCircuitVoltage: Figure;
  readonly rise: Rise;
  readonly falls: readonly Fall[];
  /** Empty where no machine is described. */
  readonly coasting: readonly CoastingFall[];
  /** Absent where no step of the order closes a bridged relay. */
  readonly lastClosure?: LastClosure | undefined;
  readonly exits: readonly PoleExit[];
  readonly exposures: readonly Exposure[];
  /** Paths from an accumulator pole to the link that remain with every disconnect open and every contact closed. */
  readonly pathsPastDisconnect: readonly ConductingPath[];
  readonly senseStates: readonly SenseState[];
  /** Absent where the measuring points are not stated. */
  readonly measuringPointStates?: readonly MeasuringPointState[] | undefined;
  /** How far off, relative to its signal's largest value, any figure computed so far may be; 1e-9 unless the circuit asks for more. */
  readonly accuracy: number;
  /** Switch states of the rise solved so far, loads of constant power weighed by their steps: a measure of work. */
  readonly statesSolved: number;
  /** Pointers of quantities whose tolerance was assumed, and of values taken as 0 or as a range because they are not stated. */
  readonly assumptions: ReadonlyArray<{ readonly pointer: string; readonly assumed: string }>;
  /** The same circuit with one resistor, capacitor, meter or load at another value; shares nothing mutable. */
  withValue(elementId: string, value: { readonly nominal: number; readonly tolerance: number }): Facts;
  /** The same circuit at one point of its ranges: each part at its share (−1…1, named as in a figure's `at`), others at nominal. */
  at(shares: Readonly<Record<string, number>>): VariedFacts;
  /**
   * What if one resistor, capacitor, meter or load had exactly this value, or lay in this range, all others anywhere in theirs? Keeps the
   * topology and the proved directions, so it is much cheaper than `withValue`; the value must be positive and finite.
   * @param only the one end that is asked for: every figure is computed there alone, and its other end and nominal are that number
   */
  vary(elementId: string, value: number | PartRange, only?: 'min' | 'max'): Pick<Facts, 'rise' | 'falls'>;
}

/** A circuit that differs from another in values only: its topology and what is proved of it are the other's. */
export type VariedFacts = Pick<Facts, 'rise' | 'falls' | 'vary'>;

/** A part's value with a range of its own. */
export interface PartRange {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
}
