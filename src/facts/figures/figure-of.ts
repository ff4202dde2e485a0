import type { Box } from '../../transient/box.js';
import type { Bounds, Dependence, Extreme } from '../../transient/bounds.js';
import type { Parameter, Values } from '../../transient/compiled-circuit.js';
import type { Figure, TimeFigure } from '../figure.js';

/** What a parameter is called in `at`, and where its tolerance or value would be stated. */
export interface NamedParameter {
  readonly name: string;
  readonly pointer: string;
}

const DEFINING = new Set(['resistance', 'capacitance', 'voltage', 'current', 'power', 'backEmf']);

export function nameOf(parameter: Parameter, kind: string): NamedParameter {
  const plain = DEFINING.has(parameter.field) && !(kind === 'accumulator' && parameter.field === 'resistance');
  return { name: plain ? parameter.element : `${parameter.element}.${parameter.field}`, pointer: parameter.pointer };
}

/** Bounds as the figure that answers carry: infinite ends become null. */
export function figureOf(
  box: Box,
  bounds: Bounds,
  names: readonly NamedParameter[],
  { direction, likely }: Pick<Dependence, 'direction' | 'likely'>,
): Figure {
  return {
    nominal: finite(bounds.nominal),
    min: finite(bounds.min.value),
    max: finite(bounds.max.value),
    stated: { min: finite(bounds.statedMin), max: finite(bounds.statedMax) },
    bare: bounds.assumedThatMatter.map((index) => names[index]?.pointer ?? '').sort(),
    bound: bounds.proved ? 'proved' : 'searched',
    ...(bounds.proved ? {} : { gap: { min: gapOf(bounds.min), max: gapOf(bounds.max) } }),
    at: {
      min: places(box, bounds.min.values, names, { direction, likely }),
      max: places(box, bounds.max.values, names, { direction, likely }),
    },
  };
}

export function timeFigureOf(
  box: Box,
  bounds: Bounds,
  names: readonly NamedParameter[],
  dependence: Pick<Dependence, 'direction' | 'likely'>,
): TimeFigure {
  return {
    ...figureOf(box, bounds, names, dependence),
    reached: reached(bounds.min.value, bounds.max.value),
    statedReached: reached(bounds.statedMin, bounds.statedMax),
  };
}

/** A figure that no tolerance moves. */
export function exactFigure(value: number): Figure {
  return {
    nominal: value,
    min: value,
    max: value,
    stated: { min: value, max: value },
    bare: [],
    bound: 'proved',
    at: { min: {}, max: {} },
  };
}

/** A figure that cannot be computed. */
export function noFigure(reason: string, missing: readonly string[] = []): Figure {
  return {
    nominal: null,
    min: null,
    max: null,
    stated: { min: null, max: null },
    bare: [],
    bound: 'proved',
    at: { min: {}, max: {} },
    reason,
    ...(missing.length > 0 ? { missing } : {}),
  };
}

export function noTimeFigure(reason: string, missing: readonly string[] = []): TimeFigure {
  return { ...noFigure(reason, missing), reached: 'never', statedReached: 'never' };
}

/** null also where the end may be without bound and what was found is not. */
function gapOf({ gap }: Extreme): number | null {
  return gap === null ? null : finite(gap);
}

function reached(min: number, max: number): 'always' | 'sometimes' | 'never' {
  if (max < Infinity) return 'always';
  return min < Infinity ? 'sometimes' : 'never';
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

function places(
  box: Box,
  values: Values,
  names: readonly NamedParameter[],
  { direction, likely }: Pick<Dependence, 'direction' | 'likely'>,
): Record<string, number> {
  const at: Record<string, number> = {};
  for (const { index, low, high } of box.uncertain) {
    const name = names[index];
    if (name === undefined || direction(index) === 0) continue;
    // Where nothing is proved of what is likely to have no part in it: not named unless a search moved it.
    if (likely?.(index) === 0 && values[index] === box.nominal[index]) continue;
    at[name.name] = ((values[index] as number) - (low + high) / 2) / ((high - low) / 2);
  }
  return at;
}
