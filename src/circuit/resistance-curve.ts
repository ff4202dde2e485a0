import { capacities } from './capacities.js';
import type { Fault } from './fault.js';
import { makeFault } from './make-fault.js';
import { childPointer } from './pointer.js';
import { readQuantity } from './quantity.js';

export type CurveReading =
  | { readonly value: ReadonlyArray<readonly [number, number]> }
  | { readonly faults: readonly Fault[] };

const FORM = 'a list of [temperature, ratio] pairs such as `[[25, 1], [125, 1.1]]`, temperatures rising';

/** Reads a resistor's curve: points [°C, ratio to the nominal resistance], temperatures strictly rising. */
export function readResistanceCurve(input: unknown, pointer: string): CurveReading {
  if (!Array.isArray(input)) {
    const detail = input === null ? 'The curve must not be null.' : 'The curve must be a list of points.';
    return { faults: [makeFault(pointer, 'wrong-type', detail, FORM)] };
  }
  const faults: Fault[] = [];
  if (input.length < 1 || input.length > capacities.curvePoints) {
    const detail = `The curve must have 1 to ${capacities.curvePoints} points, not ${input.length}.`;
    return { faults: [makeFault(pointer, 'wrong-length', detail, FORM)] };
  }
  const value: Array<readonly [number, number]> = [];
  let hottest = Number.NEGATIVE_INFINITY;
  for (const [index, point] of (input as unknown[]).entries()) {
    const place = childPointer(pointer, index);
    if (!Array.isArray(point) || point.length !== 2) {
      const code = Array.isArray(point) ? 'wrong-length' : 'wrong-type';
      faults.push(makeFault(place, code, 'A point of the curve must be a list of two: temperature and ratio.', FORM));
      continue;
    }
    const [givenTemperature, givenRatio] = point as [unknown, unknown];
    const temperature = readQuantity(givenTemperature, 'temperature');
    const ratio = readQuantity(givenRatio, 'positiveRatio');
    for (const [position, reading] of [temperature, ratio].entries()) {
      if (!('value' in reading)) {
        faults.push(makeFault(childPointer(place, position), reading.code, reading.detail, reading.accepted));
      }
    }
    if (!('value' in temperature)) continue;
    if (temperature.value <= hottest) {
      const detail = 'The temperature must be above that of the point before.';
      faults.push(makeFault(childPointer(place, 0), 'unordered-curve', detail, FORM));
    }
    hottest = Math.max(hottest, temperature.value);
    if ('value' in ratio) value.push([temperature.value, ratio.value]);
  }
  return faults.length === 0 ? { value } : { faults };
}
