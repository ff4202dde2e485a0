import type { ResolvedCircuit, Resistor } from '../circuit/model.js';

/** What a resistor can turn to heat for ever where it sits, in W, as far as its description tells. */
export interface AvailablePower {
  /** Surely. */
  readonly atLeast: number;
  /** At most; infinite where nothing bounds it. */
  readonly atMost: number;
  /** Pointers of the fields that would bring the two together. */
  readonly missing: readonly string[];
  /** °C */
  readonly ambient?: number;
}

/** °C up to which a rating holds in full by common practice, where the data sheet's derating line is not stated. */
const RATED_AMBIENT = 25;

/** The ambient of a resistor: its own, else the car's. */
export function ambientOf(resistor: Resistor, circuit: ResolvedCircuit): number | undefined {
  return resistor.ambientMax ?? circuit.ambientMax;
}

/**
 * The continuous power of a resistor as mounted and at its ambient. Power derates linearly from `fullPowerUpTo` to zero at
 * `zeroPowerAt` (the form of MIL-PRF-39009's derating). On a heat sink or structure of the car's own neither data sheet
 * figure holds: the free-air rating is sure, the full one the most, and a stated thermal resistance settles it.
 */
export function availablePower(resistor: Resistor, circuit: ResolvedCircuit): AvailablePower {
  const { thermal, pointer } = resistor;
  const ambient = ambientOf(resistor, circuit);
  const base = ratedPower(resistor);
  const ownMounting = resistor.mounting === 'heat-sink' || resistor.mounting === 'structure';
  if (
    thermal?.resistance !== undefined &&
    thermal.maxTemperature !== undefined &&
    (ownMounting || base.atMost === Infinity)
  ) {
    if (ambient === undefined) return { atLeast: 0, atMost: base.atMost, missing: [`${pointer}/ambientMax`] };
    const byHeat = Math.max(0, (thermal.maxTemperature - ambient) / thermal.resistance);
    const power = Math.min(byHeat, base.atMost);
    return { atLeast: power, atMost: power, missing: [], ambient };
  }
  const share = deratedShare(resistor, ambient);
  return {
    atLeast: base.atLeast * share.atLeast,
    atMost: base.atMost * share.atMost,
    missing: [...base.missing, ...share.missing],
    ...(ambient === undefined ? {} : { ambient }),
  };
}

interface Range {
  readonly atLeast: number;
  readonly atMost: number;
  readonly missing: readonly string[];
}

function ratedPower({ mounting, technology, ratings, pointer }: Resistor): Range {
  const power = ratings?.power;
  const freeAir = ratings?.powerFreeAir;
  const atMost = power ?? Infinity;
  const powerMissing = power === undefined ? [`${pointer}/ratings/power`] : [];
  if (mounting === 'free-air') {
    return freeAir === undefined
      ? { atLeast: 0, atMost, missing: [`${pointer}/ratings/powerFreeAir`] }
      : { atLeast: freeAir, atMost: freeAir, missing: [] };
  }
  if (mounting === 'heat-sink' || mounting === 'structure') {
    const missing = [`${pointer}/thermal/resistance`, `${pointer}/thermal/maxTemperature`, ...powerMissing];
    return { atLeast: Math.min(freeAir ?? 0, atMost), atMost, missing };
  }
  // Only a chassis-mounted wirewound is rated for a surface it must be given; other parts carry their rating with them.
  const needsMounting = mounting === undefined && (technology === 'wirewound' || technology === undefined);
  if (needsMounting) {
    return { atLeast: Math.min(freeAir ?? 0, atMost), atMost, missing: [`${pointer}/mounting`, ...powerMissing] };
  }
  return power === undefined
    ? { atLeast: 0, atMost, missing: powerMissing }
    : { atLeast: power, atMost: power, missing: [] };
}

function deratedShare({ ratings, pointer }: Resistor, ambient: number | undefined): Range {
  const full = ratings?.fullPowerUpTo;
  const zero = ratings?.zeroPowerAt;
  if (ambient === undefined) return { atLeast: 0, atMost: 1, missing: [`${pointer}/ambientMax`] };
  if (ambient <= (full ?? RATED_AMBIENT)) return { atLeast: 1, atMost: 1, missing: [] };
  if (zero !== undefined && ambient >= zero) return { atLeast: 0, atMost: 0, missing: [] };
  if (full === undefined || zero === undefined) {
    const missing = [
      ...(full === undefined ? [`${pointer}/ratings/fullPowerUpTo`] : []),
      ...(zero === undefined ? [`${pointer}/ratings/zeroPowerAt`] : []),
    ];
    return { atLeast: 0, atMost: 1, missing };
  }
  const share = (zero - ambient) / (zero - full);
  return { atLeast: share, atMost: share, missing: [] };
}
