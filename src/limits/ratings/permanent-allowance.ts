import type { ResolvedCircuit, Resistor } from '../../circuit/model.js';
import type { Allowance } from './allowance.js';
import { ambientOf } from './ambient-of.js';

/** °C up to which a rating holds in full by common practice, where the data sheet's derating line is not stated. */
const RATED_AMBIENT = 25;

/**
 * The continuous power of a resistor as mounted and at its ambient: linear from `fullPowerUpTo` down to zero at `zeroPowerAt`
 * (the form of MIL-PRF-39009's derating). On a heat sink or structure of the car's own the free-air rating is sure, the full one
 * the most, and a stated thermal resistance settles it.
 */
export function permanentAllowance(resistor: Resistor, circuit: ResolvedCircuit): Allowance {
  const { thermal, pointer, mounting } = resistor;
  const ambient = ambientOf(resistor, circuit);
  const rated = ratedPower(resistor);
  const ownMounting = mounting === 'heat-sink' || mounting === 'structure';
  if (
    thermal?.resistance !== undefined &&
    thermal.maxTemperature !== undefined &&
    (ownMounting || rated.atMost === Infinity)
  ) {
    if (ambient === undefined) return { atLeast: 0, atMost: rated.atMost, missing: [`${pointer}/ambientMax`] };
    const byHeat = Math.max(0, (thermal.maxTemperature - ambient) / thermal.resistance);
    const power = Math.min(byHeat, rated.atMost);
    return { atLeast: power, atMost: power, missing: [] };
  }
  const share = deratedShare(resistor, ambient);
  return {
    atLeast: rated.atLeast * share.atLeast,
    // Without any share left nothing is left of a rating that is not stated either.
    atMost: share.atMost === 0 ? 0 : rated.atMost * share.atMost,
    missing: [...rated.missing, ...share.missing],
  };
}

function ratedPower({ mounting, technology, ratings, pointer }: Resistor): Allowance {
  const { power, powerFreeAir: freeAir } = ratings ?? {};
  const atMost = power ?? Infinity;
  const powerMissing = power === undefined ? [`${pointer}/ratings/power`] : [];
  if (mounting === 'free-air') {
    return freeAir === undefined
      ? { atLeast: 0, atMost, missing: [`${pointer}/ratings/powerFreeAir`] }
      : { atLeast: freeAir, atMost: freeAir, missing: [] };
  }
  const unsure = { atLeast: Math.min(freeAir ?? 0, atMost), atMost };
  if (mounting === 'heat-sink' || mounting === 'structure') {
    return {
      ...unsure,
      missing: [`${pointer}/thermal/resistance`, `${pointer}/thermal/maxTemperature`, ...powerMissing],
    };
  }
  // Only a chassis-mounted wirewound is rated for a surface it must be given; other parts carry their rating with them.
  if (mounting === undefined && (technology === 'wirewound' || technology === undefined)) {
    return { ...unsure, missing: [`${pointer}/mounting`, ...powerMissing] };
  }
  return power === undefined
    ? { atLeast: 0, atMost, missing: powerMissing }
    : { atLeast: power, atMost: power, missing: [] };
}

function deratedShare({ ratings, pointer }: Resistor, ambient: number | undefined): Allowance {
  const { fullPowerUpTo: full, zeroPowerAt: zero } = ratings ?? {};
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
