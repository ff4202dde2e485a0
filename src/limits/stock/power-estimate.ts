/** Places at which a power is computed, evenly spread in the logarithm; between them it is estimated. */
const PLACES = 5;

/**
 * An estimate of the largest power that a circuit puts into a resistor, as a function of its resistance, from a few places.
 *
 * From a source E behind a resistance T it gets E²·R/(R + T)² (voltage divider, textbook), so √(R/P) = (R + T)/E is a straight
 * line, and the largest P over many E and T gives the smallest of such lines, which is concave: a chord lies below it. The
 * estimate is therefore never too small, and exact where one E and T are the worst on both sides.
 */
export function powerEstimate(
  power: (resistance: number) => number,
  lowest: number,
  highest: number,
): (resistance: number) => number {
  const ratio = highest / lowest;
  const count = ratio > 1 ? PLACES : 1;
  const points = Array.from({ length: count }, (_, index) => {
    const at = count === 1 ? lowest : lowest * ratio ** (index / (count - 1));
    return { at, root: Math.sqrt(at / power(at)) };
  });
  return (resistance) => {
    const index = Math.max(
      1,
      points.findIndex(({ at }) => at >= resistance),
    );
    const left = points[index - 1];
    const right = points[index] ?? left;
    if (left === undefined || right === undefined) return Infinity;
    const part = right.at > left.at ? (resistance - left.at) / (right.at - left.at) : 0;
    const root = left.root + part * (right.root - left.root);
    return root > 0 ? resistance / root ** 2 : Infinity;
  };
}
