import type { CompiledCircuit, Parameter, Values } from './compiled-circuit.js';

/** One parameter that is not exactly known. */
export interface Uncertain {
  /** Index of the parameter. */
  readonly index: number;
  readonly low: number;
  readonly high: number;
  /** True where the range is not the caller's: the tolerance was assumed. */
  readonly assumed: boolean;
}

/** The ranges of all parameters of a circuit: a box around its nominal values. */
export interface Box {
  readonly nominal: Values;
  readonly uncertain: readonly Uncertain[];
  /** The one end that is asked for; the other end and the nominal value are then not computed, and stand at the same number. */
  readonly only?: 'min' | 'max' | undefined;
}

/**
 * @param assumedTolerance relative tolerance taken for a parameter whose own is not stated; 0: none is taken
 */
export function boxOf(compiled: CompiledCircuit, assumedTolerance: (parameter: Parameter) => number): Box {
  const nominal = compiled.parameters.map((parameter) => parameter.range.nominal);
  const uncertain: Uncertain[] = [];
  compiled.parameters.forEach((parameter, index) => {
    const { range } = parameter;
    if (range.toleranceStated) {
      if (range.min < range.max) uncertain.push({ index, low: range.min, high: range.max, assumed: false });
      return;
    }
    const tolerance = parameter.stated ? assumedTolerance(parameter) : 0;
    if (tolerance > 0 && range.nominal !== 0) {
      uncertain.push({
        index,
        low: range.nominal * (1 - tolerance),
        high: range.nominal * (1 + tolerance),
        assumed: true,
      });
    }
  });
  return { nominal, uncertain };
}

/** Every parameter at the upper end of its range. */
export function highestOf({ nominal, uncertain }: Box): Values {
  const values = nominal.slice();
  for (const { index, high } of uncertain) values[index] = high;
  return values;
}

/** Where most flows: voltages at the upper end of their ranges, all else at the lower. */
export function easiestOf({ parameters }: CompiledCircuit, { nominal, uncertain }: Box): Values {
  const values = nominal.slice();
  for (const { index, low, high } of uncertain) values[index] = parameters[index]?.field === 'voltage' ? high : low;
  return values;
}
