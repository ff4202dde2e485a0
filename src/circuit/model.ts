/**
 * The resolved circuit: every quantity in SI, every default that the contract fixes filled in, everything else that was
 * not stated left `undefined`. Elements stand in order of id, so that nothing downstream depends on the order given.
 */

/** Which part of the car an element is built into: inside an accumulator container, or anywhere else. */
export type Zone = 'container' | 'vehicle';

/** A value with its range in SI. `min ≤ nominal ≤ max`, all finite. */
export interface Toleranced {
  readonly min: number;
  readonly nominal: number;
  readonly max: number;
  /** False where the caller gave a bare number or text: 'tolerance not stated'. Then min = nominal = max. */
  readonly toleranceStated: boolean;
}

interface ElementBase {
  readonly id: string;
  /** Current is positive from `nodes[0]` to `nodes[1]` through the element. */
  readonly nodes: readonly [string, string];
  readonly zone: Zone;
  /** Which container the element belongs to; `'main'` where not stated. Without meaning for zone `vehicle`. */
  readonly container: string;
  readonly label?: string;
  /** Where the element stands in the request, as a URI fragment: `#/circuit/elements/3`. */
  readonly pointer: string;
}

/** Nodes are [positive, negative]. */
export interface Accumulator extends ElementBase {
  readonly kind: 'accumulator';
  /** Open-circuit voltage in V, > 0. A bare number is a voltage whose range is not stated. */
  readonly voltage: Toleranced;
  readonly resistance?: Toleranced;
}

export interface Fuse extends ElementBase {
  readonly kind: 'fuse';
  readonly resistance?: Toleranced;
  readonly ratedCurrent?: number;
  readonly ratedDcVoltage?: number;
  readonly breakingCurrent?: number;
}

export type ContactRole = 'isolation-relay' | 'precharge-relay' | 'discharge-relay' | 'other';
export type Supply = 'shutdown-circuit' | 'controller' | 'independent';

export interface ContactRatings {
  readonly dcVoltage?: number;
  readonly makingCurrent?: number;
  readonly breakingCurrent?: number;
  readonly carryingCurrent?: number;
}

export interface Contact extends ElementBase {
  readonly kind: 'contact';
  readonly rest: 'open' | 'closed';
  readonly role?: ContactRole;
  readonly construction?: 'electromechanical' | 'solid-state';
  readonly suppliedBy?: Supply;
  /** Contacts with the same name move together. */
  readonly relay?: string;
  readonly auxiliary?: 'none' | 'plain' | 'guided' | 'mirror';
  readonly auxiliaryContact?: 'normally-closed' | 'normally-open';
  /** Closed. */
  readonly resistance?: Toleranced;
  /** Open: leakage or a snubber. Not stated: an open contact conducts nothing. */
  readonly openResistance?: Toleranced;
  /** s, from the command to the contact's movement. */
  readonly operateTime?: number;
  /** s, from the opening of the shutdown circuit to the contact's movement. */
  readonly releaseTime?: number;
  readonly ratings?: ContactRatings;
}

/** A plug that parts when a container leaves the car. */
export interface Connector extends ElementBase {
  readonly kind: 'connector';
  /** The container whose leaving parts this plug; the element's own container where not stated. */
  readonly separates: string;
  readonly resistance?: Toleranced;
  readonly ratedVoltage?: number;
}

/** The high-voltage disconnect. */
export interface Disconnect extends ElementBase {
  readonly kind: 'disconnect';
  readonly resistance?: Toleranced;
  readonly ratedVoltage?: number;
}

export type ResistorRole = 'precharge' | 'discharge' | 'bleed' | 'sense' | 'body-protection' | 'other';

export interface ResistorRatings {
  /** W, as mounted the way the data sheet says. */
  readonly power?: number;
  readonly powerFreeAir?: number;
  /** °C */
  readonly fullPowerUpTo?: number;
  readonly zeroPowerAt?: number;
  readonly voltage?: number;
  readonly overload?: { readonly factor: number; readonly duration: number };
}

export interface Resistor extends ElementBase {
  readonly kind: 'resistor';
  readonly resistance: Toleranced;
  readonly role?: ResistorRole;
  readonly technology?: 'wirewound' | 'film' | 'carbon' | 'ptc' | 'ntc' | 'other';
  /** [°C, ratio to the nominal resistance], by rising temperature. */
  readonly resistanceCurve?: ReadonlyArray<readonly [number, number]>;
  readonly mounting?: 'as-rated' | 'heat-sink' | 'structure' | 'free-air';
  readonly ambientMax?: number;
  readonly ratings?: ResistorRatings;
  readonly thermal?: { readonly resistance?: number; readonly capacitance?: number; readonly maxTemperature?: number };
  readonly surroundings?: {
    readonly limitTemperature?: number;
    readonly clearance?: number;
    readonly measuredTemperature?: number;
  };
}

export interface Capacitor extends ElementBase {
  readonly kind: 'capacitor';
  readonly capacitance: Toleranced;
  readonly esr?: Toleranced;
  readonly ratedVoltage?: number;
  /** V at t = 0; 0 where not stated. */
  readonly initialVoltage: number;
}

export interface Meter extends ElementBase {
  readonly kind: 'meter';
  readonly resistance: Toleranced;
  readonly role?: 'energy-meter' | 'voltage-sense' | 'insulation-monitor' | 'indicator' | 'other';
}

export type Phase = 'precharge' | 'drive' | 'shutdown';

/** Exactly one of resistance, current, power is present. */
export interface Load extends ElementBase {
  readonly kind: 'load';
  readonly resistance?: Toleranced;
  readonly current?: Toleranced;
  readonly power?: Toleranced;
  /** V; the load wakes up above this and falls asleep below `stopsBelow` ≤ `startsAbove`. */
  readonly startsAbove: number;
  readonly stopsBelow: number;
  readonly activeIn: readonly Phase[];
}

/** A spinning motor that feeds the link through its diodes. */
export interface Machine extends ElementBase {
  readonly kind: 'machine';
  readonly backEmf: Toleranced;
  /** s, time constant of the coast-down. */
  readonly decay?: number;
  readonly resistance?: Toleranced;
}

export type Element =
  | Accumulator
  | Fuse
  | Contact
  | Connector
  | Disconnect
  | Resistor
  | Capacitor
  | Meter
  | Load
  | Machine;

export type ElementKind = Element['kind'];

/** Exactly one of at, after, when is present. */
export interface Step {
  readonly at?: number;
  readonly after?: number;
  readonly when?: { readonly linkRatio: number; readonly falling: boolean };
  readonly close: readonly string[];
  readonly open: readonly string[];
  readonly release: boolean;
}

export interface PrechargeControl {
  readonly method?: 'voltage-comparison' | 'timer';
  readonly threshold?: number;
  readonly comparisonError?: number;
  readonly reference?: 'measured' | 'fixed';
  readonly fixedVoltage?: number;
  readonly accumulatorSense?: readonly [string, string];
  readonly linkSense?: readonly [string, string];
  readonly delay?: number;
  readonly timeout?: number;
  readonly attempts?: number;
  readonly retryInterval?: number;
  readonly minimumRestartInterval?: number;
}

export interface ResolvedCircuit {
  readonly title?: string;
  /** In order of id (UTF-16 code units). */
  readonly elements: readonly Element[];
  /** Every node any element touches, sorted. */
  readonly nodes: readonly string[];
  /** The intermediate circuit's two nodes; absent where none is stated and no capacitor stands in the vehicle zone. */
  readonly link?: readonly [string, string];
  readonly linkStated: boolean;
  readonly measuringPoints?: { readonly positive: string; readonly negative: string };
  readonly chassis?: string;
  readonly operatingCurrent?: number;
  readonly control: { readonly sequence?: readonly Step[]; readonly precharge?: PrechargeControl };
  readonly indicator?: {
    readonly watches?: readonly string[];
    readonly senses?: ReadonlyArray<readonly [string, string]>;
  };
  readonly containerIndicator?: { readonly senses?: readonly [string, string] };
  /** Of further containers. */
  readonly containerIndicators?: ReadonlyArray<{ readonly senses?: readonly [string, string] }>;
  /** °C */
  readonly ambientMax?: number;
  /** Where the circuit stands in the request: `#/circuit`. */
  readonly pointer: string;
}

/** The element of that id, or undefined. */
export function elementById(circuit: ResolvedCircuit, id: string): Element | undefined {
  return circuit.elements.find((element) => element.id === id);
}
