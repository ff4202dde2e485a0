import type { ResolvedCircuit, Resistor } from '../circuit/model.js';
import type { Figure } from '../facts/figure.js';
import { ambientOf } from '../limits/ratings/ambient-of.js';
import { permanentAllowance } from '../limits/ratings/permanent-allowance.js';
import { type Judgement, judgeFigure } from './judge-figure.js';
import type { Measured } from './measured-against.js';

export interface HeatJudgement {
  readonly status: 'met' | 'violated' | 'undetermined';
  readonly missing: readonly string[];
  /** J of one start or discharge at worst. */
  readonly energy: number;
  /** What decided: the heat of each, or the temperature that they come to, with what the resistor stands. */
  readonly measured: Measured & { readonly unit: 'J' | '°C' };
}

/** What a row of starts or discharges does to a resistor. */
export interface Row {
  /** J of each. */
  readonly energy: Figure;
  /** Infinity: without end. */
  readonly count: number;
  /** °C at the hottest; only read where the resistor's thermal mass is stated. */
  readonly temperature: () => Figure;
}

/**
 * Whether a resistor stands a row of starts or discharges. It does where all their heat together stays within an overload
 * rating (factor × derated power × duration), or where its single thermal mass stays below its highest temperature.
 * Where nothing says how fast the heat goes, all of it counts as kept.
 */
export function judgeHeat(resistor: Resistor, circuit: ResolvedCircuit, row: Row): HeatJudgement {
  const { thermal } = resistor;
  const byRating = ratingAllowance(resistor, circuit, row.count);
  const rated = judgeFigure(row.energy, { side: 'below', limit: byRating, strict: false });
  const energy = rated.worst;
  const { search } = rated;
  const heat = (limit: number) => ({ actual: energy, limit, side: 'below', unit: 'J', search }) as const;
  if (rated.notComputable) return { status: 'undetermined', missing: rated.missing, energy, measured: heat(byRating) };
  if (rated.status === 'met') return { status: 'met', missing: [], energy, measured: heat(byRating) };
  const missing = missingOf(resistor, circuit);
  if (missing.length === 0 && thermal?.maxTemperature !== undefined) {
    const limit = thermal.maxTemperature;
    const { status, worst, ...judged } = judgeFigure(row.temperature(), { side: 'below', limit, strict: false });
    return {
      status: judged.notComputable ? 'undetermined' : status,
      missing: judged.missing,
      energy,
      measured: { actual: worst, limit, side: 'below', unit: '°C', search: judged.search },
    };
  }
  const limit = Math.max(byRating, keptAllowance(resistor, circuit, row.count));
  const kept: Judgement = judgeFigure(row.energy, { side: 'below', limit, strict: false });
  return kept.status === 'met'
    ? { status: 'met', missing: [], energy, measured: heat(limit) }
    : { status: 'undetermined', missing: [...missing, ...kept.missing], energy, measured: heat(limit) };
}

/** J of each. */
function ratingAllowance(resistor: Resistor, circuit: ResolvedCircuit, count: number): number {
  const overload = resistor.ratings?.overload;
  if (overload === undefined || count === Infinity) return 0;
  return (permanentAllowance(resistor, circuit).atLeast * overload.factor * overload.duration) / count;
}

/** J of each where the thermal mass lets go of nothing. */
function keptAllowance(resistor: Resistor, circuit: ResolvedCircuit, count: number): number {
  const { capacitance, maxTemperature } = resistor.thermal ?? {};
  const ambient = ambientOf(resistor, circuit);
  if (capacitance === undefined || maxTemperature === undefined || ambient === undefined) return 0;
  return (capacitance * Math.max(0, maxTemperature - ambient)) / count;
}

function missingOf(resistor: Resistor, circuit: ResolvedCircuit): string[] {
  const { resistance, capacitance, maxTemperature } = resistor.thermal ?? {};
  return [
    ...(capacitance === undefined ? [`${resistor.pointer}/thermal/capacitance`] : []),
    ...(maxTemperature === undefined ? [`${resistor.pointer}/thermal/maxTemperature`] : []),
    ...(ambientOf(resistor, circuit) === undefined ? [`${resistor.pointer}/ambientMax`] : []),
    ...(resistance === undefined ? [`${resistor.pointer}/thermal/resistance`] : []),
  ];
}
