import type { ResolvedCircuit, Resistor } from '../circuit/model.js';
import type { Figure } from '../facts/figure.js';
import { ambientOf } from '../limits/ratings/ambient-of.js';
import { ONCE } from '../limits/ratings/temperature-rise.js';
import { timedAllowance } from '../limits/ratings/timed-allowance.js';
import { judgeFigure, type Search } from './judge-figure.js';

export interface PowerJudgement {
  readonly status: 'met' | 'violated' | 'undetermined';
  readonly missing: readonly string[];
  /** W at worst. */
  readonly power: number;
  readonly search?: Search | undefined;
  /** W that it stands for the time, surely and at most. */
  readonly atLeast: number;
  readonly atMost: number;
  readonly ambient?: number;
}

/**
 * Whether a resistor stands a power for a time: permanently (`null`) by its derated rating; for a limited time also by an
 * overload rating of at least that time, or by its thermal mass, which cools between repeats. A shorter overload rating says
 * nothing of a longer time.
 */
export function judgePower(
  resistor: Resistor,
  circuit: ResolvedCircuit,
  power: Figure,
  time: number | null,
  repeats = ONCE,
): PowerJudgement {
  const { atLeast, atMost, missing } = timedAllowance(resistor, circuit, time, repeats);
  const ambient = ambientOf(resistor, circuit);
  const sure = judgeFigure(power, { side: 'below', limit: atLeast, strict: false });
  const hopeless = judgeFigure(power, { side: 'below', limit: atMost, strict: false });
  const common = {
    power: sure.worst,
    search: sure.search,
    atLeast,
    atMost,
    ...(ambient === undefined ? {} : { ambient }),
  };
  if (sure.notComputable) return { status: 'undetermined', missing: sure.missing, ...common };
  if (sure.status === 'met') return { status: 'met', missing: [], ...common };
  if (hopeless.status === 'violated') return { status: 'violated', missing: [], ...common };
  // Where the sure rating fails only for assumed tolerances those fields settle it as well.
  return { status: 'undetermined', missing: [...missing, ...sure.missing, ...hopeless.missing], ...common };
}
