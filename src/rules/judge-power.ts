import type { ResolvedCircuit, Resistor } from '../circuit/model.js';
import type { Figure } from '../facts/figure.js';
import { ambientOf, availablePower } from './available-power.js';
import { judgeFigure } from './judge-figure.js';
import { temperatureRise } from './temperature-rise.js';

export interface PowerJudgement {
  readonly status: 'met' | 'violated' | 'undetermined';
  readonly missing: readonly string[];
  /** W at worst. */
  readonly power: number;
  /** W that it stands for the time, surely and at most. */
  readonly atLeast: number;
  readonly atMost: number;
  readonly ambient?: number;
}

/**
 * Whether a resistor stands a power for a time: permanently (`null`) by its derated rating; for a limited time also by an
 * overload rating of at least that time, or by its thermal mass. A shorter overload rating says nothing of a longer time.
 */
export function judgePower(
  resistor: Resistor,
  circuit: ResolvedCircuit,
  power: Figure,
  time: number | null,
): PowerJudgement {
  const available = availablePower(resistor, circuit);
  const { atLeast, atMost, missing } = time === null ? available : forTime(resistor, circuit, available, time);
  const sure = judgeFigure(power, { side: 'below', limit: atLeast, strict: false });
  const hopeless = judgeFigure(power, { side: 'below', limit: atMost, strict: false });
  const common = {
    power: sure.worst,
    atLeast,
    atMost,
    ...(available.ambient === undefined ? {} : { ambient: available.ambient }),
  };
  if (sure.notComputable) return { status: 'undetermined', missing: sure.missing, ...common };
  if (sure.status === 'met') return { status: 'met', missing: [], ...common };
  if (hopeless.status === 'violated') return { status: 'violated', missing: [], ...common };
  // Where the sure rating fails only for assumed tolerances those fields settle it as well.
  return { status: 'undetermined', missing: [...missing, ...sure.missing, ...hopeless.missing], ...common };
}

function forTime(
  resistor: Resistor,
  circuit: ResolvedCircuit,
  available: ReturnType<typeof availablePower>,
  time: number,
): { readonly atLeast: number; readonly atMost: number; readonly missing: readonly string[] } {
  const { ratings, thermal, pointer } = resistor;
  const overload = ratings?.overload;
  if (overload !== undefined && overload.duration >= time) {
    const factor = Math.max(1, overload.factor);
    return { atLeast: available.atLeast * factor, atMost: available.atMost * factor, missing: available.missing };
  }
  const ambient = ambientOf(resistor, circuit);
  const rise = temperatureRise(thermal, time);
  if (rise === undefined || thermal?.maxTemperature === undefined || ambient === undefined) {
    const missing = [
      `${pointer}/ratings/overload`,
      ...(thermal?.capacitance === undefined ? [`${pointer}/thermal/capacitance`] : []),
      ...(thermal?.maxTemperature === undefined ? [`${pointer}/thermal/maxTemperature`] : []),
      ...(ambient === undefined ? [`${pointer}/ambientMax`] : []),
    ];
    return { atLeast: available.atLeast, atMost: Infinity, missing: [...available.missing, ...missing] };
  }
  const byHeat = Math.max(0, (thermal.maxTemperature - ambient) / rise.perWatt);
  const missing = rise.exact
    ? []
    : [thermal.capacitance === undefined ? `${pointer}/thermal/capacitance` : `${pointer}/thermal/resistance`];
  // A stated rating holds for ever, so it holds for the time too; heat may allow more.
  const atLeast = Math.max(byHeat, available.atLeast);
  return { atLeast, atMost: rise.exact ? atLeast : Infinity, missing };
}
