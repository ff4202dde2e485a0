/** What a limit can be computed from without a circuit. SI; ratios as ratios. */
export interface Scalars {
  /** Ω */
  readonly prechargeResistance?: number;
  /** Ω each, in parallel. */
  readonly loadResistance?: readonly number[];
  /** Ratio to the accumulator's open-circuit voltage. */
  readonly threshold?: number;
  /** V */
  readonly voltage?: number;
  /** F */
  readonly capacitance?: number;
  /** s */
  readonly time?: number;
  /** V */
  readonly limitVoltage?: number;
  /** Ω */
  readonly dischargeResistance?: number;
  /** W */
  readonly power?: number;
  /** A */
  readonly current?: number;
  /** J */
  readonly energy?: number;
  /** W */
  readonly ratedPower?: number;
  /** Ω */
  readonly sourceResistance?: number;
  /** Relative tolerance of the part that is bounded. */
  readonly tolerance?: number;
}

export type ScalarName = keyof Scalars;

/** All names that a closed form may read, in the order in which they are listed. */
export const scalarNames = [
  'prechargeResistance',
  'loadResistance',
  'threshold',
  'voltage',
  'capacitance',
  'time',
  'limitVoltage',
  'dischargeResistance',
  'power',
  'current',
  'energy',
  'ratedPower',
  'sourceResistance',
  'tolerance',
] as const satisfies readonly ScalarName[];

/** Why there is no bound. */
export interface NoBound {
  /** As of a limit on a circuit; absent where neither is so. */
  readonly outcome?: 'no-value-helps' | 'no-value-hurts';
  /** The same as a sentence. */
  readonly note: string;
}

export interface ScalarForm {
  readonly required: readonly ScalarName[];
  /** Read where given; left out of the formula where not. */
  readonly optional: readonly ScalarName[];
  /** The formula in symbols. */
  readonly formula: string;
  /**
   * The bound as a nominal value: with `tolerance`, the one at whose worst end the formula holds with equality.
   * @returns null where a required scalar is not given, where no value of the part is good enough, or where every one is
   */
  readonly compute: (scalars: Scalars) => number | null;
  /** Why `compute` gives none. */
  readonly withoutBound: (scalars: Scalars) => NoBound;
}
