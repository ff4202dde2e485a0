import type { ResolvedCircuit, Resistor } from '../circuit/model.js';
import type { Figure } from '../facts/figure.js';
import { ambientOf, availablePower } from './available-power.js';
import { judgeFigure } from './judge-figure.js';

export interface HeatJudgement {
  readonly status: 'met' | 'violated' | 'undetermined';
  readonly missing: readonly string[];
  /** J of one start or discharge at worst. */
  readonly energy: number;
  /** J of each that the resistor stands, surely and at most. */
  readonly atLeast: number;
  readonly atMost: number;
}

/** A row of equal bursts of heat; `count` infinite where they go on. `interval` in s from one to the next. */
export interface Bursts {
  readonly count: number;
  readonly interval: number;
}

/**
 * Whether a resistor stands a row of starts or discharges. It does where all their heat together stays within an overload
 * rating (factor × derated power × duration), or where its single thermal mass stays below its highest temperature: n
 * bursts leave E/C·Σ e^(−kΔ/RC), a geometric sum. A burst counts as given at once, which is on the careful side.
 */
export function judgeHeat(resistor: Resistor, circuit: ResolvedCircuit, energy: Figure, bursts: Bursts): HeatJudgement {
  const byRating = ratingAllowance(resistor, circuit, bursts);
  const byMass = massAllowance(resistor, circuit, bursts);
  const atLeast = Math.max(byRating, byMass.atLeast);
  const atMost = Math.max(atLeast, byMass.atMost);
  const sure = judgeFigure(energy, { side: 'below', limit: atLeast, strict: false });
  const hopeless = judgeFigure(energy, { side: 'below', limit: atMost, strict: false });
  const common = { energy: sure.worst, atLeast, atMost };
  if (sure.notComputable) return { status: 'undetermined', missing: sure.missing, ...common };
  if (sure.status === 'met') return { status: 'met', missing: [], ...common };
  if (hopeless.status === 'violated') return { status: 'violated', missing: [], ...common };
  return { status: 'undetermined', missing: [...byMass.missing, ...sure.missing, ...hopeless.missing], ...common };
}

function ratingAllowance(resistor: Resistor, circuit: ResolvedCircuit, { count }: Bursts): number {
  const overload = resistor.ratings?.overload;
  if (overload === undefined || count === Infinity) return 0;
  return (availablePower(resistor, circuit).atLeast * overload.factor * overload.duration) / count;
}

function massAllowance(resistor: Resistor, circuit: ResolvedCircuit, { count, interval }: Bursts) {
  const { resistance, capacitance, maxTemperature } = resistor.thermal ?? {};
  const ambient = ambientOf(resistor, circuit);
  const missing = [
    ...(capacitance === undefined ? [`${resistor.pointer}/thermal/capacitance`] : []),
    ...(maxTemperature === undefined ? [`${resistor.pointer}/thermal/maxTemperature`] : []),
    ...(ambient === undefined ? [`${resistor.pointer}/ambientMax`] : []),
  ];
  const resistanceMissing = `${resistor.pointer}/thermal/resistance`;
  if (capacitance === undefined || maxTemperature === undefined || ambient === undefined) {
    return {
      atLeast: 0,
      atMost: Infinity,
      missing: resistance === undefined ? [...missing, resistanceMissing] : missing,
    };
  }
  const room = capacitance * Math.max(0, maxTemperature - ambient);
  if (resistance === undefined) return { atLeast: room / count, atMost: Infinity, missing: [resistanceMissing] };
  const decay = interval / (resistance * capacitance);
  const sum = decay === 0 ? count : Math.expm1(-decay * count) / Math.expm1(-decay);
  return { atLeast: room / sum, atMost: room / sum, missing: [] };
}
