import { insertInOrder } from './insert-in-order.js';

/** Spread of the points below which the Taylor series is summed; above it the recursion loses at most a digit. */
const SERIES_SPREAD = 1.5;

/**
 * Divided difference of exp over the points given (any order, repeats allowed, at most about eight of them).
 *
 * exp[x₀] = e^x₀, exp[x₀…xₖ] = (exp[x₁…xₖ] − exp[x₀…xₖ₋₁]) / (xₖ − x₀). Integrals of products of exponentials are divided
 * differences (a convolution of k exponentials is one of order k − 1), and this form stays finite and exact where rates
 * coincide. Close points go by the series Σ hₘ/(m+k)!, hₘ the complete homogeneous polynomials about their centre;
 * spread points by the recursion on the sorted points, whose two terms then differ by a factor and cannot cancel.
 *
 * Source: C. de Boor, "Divided differences", Surveys in Approximation Theory 1 (2005), recurrence and Leibniz formula.
 */
export function expDividedDifference(points: readonly number[]): number {
  const sorted: number[] = [];
  for (const point of points) insertInOrder(sorted, point);
  return ofSorted(sorted, 0, sorted.length - 1);
}

function ofSorted(x: readonly number[], first: number, last: number): number {
  const low = x[first] as number;
  const high = x[last] as number;
  if (first === last) return Math.exp(low);
  if (high - low > SERIES_SPREAD) return (ofSorted(x, first + 1, last) - ofSorted(x, first, last - 1)) / (high - low);
  return series(x, first, last);
}

function series(x: readonly number[], first: number, last: number): number {
  const order = last - first;
  // Expanding about the lowest point keeps every term positive: nothing cancels.
  const origin = x[first] as number;
  // h₀ is 1 for any points; hₘ(x₀…xⱼ) = hₘ(x₀…xⱼ₋₁) + xⱼ·hₘ₋₁(x₀…xⱼ).
  const homogeneous = new Array<number>(order + 1).fill(1);
  let factorial = 1;
  for (let k = 2; k <= order; k += 1) factorial *= k;
  let scale = 1 / factorial;
  let sum = scale;
  for (let m = 1; m < 60; m += 1) {
    let running = 0;
    for (let j = 0; j <= order; j += 1) {
      running += ((x[first + j] as number) - origin) * (homogeneous[j] as number);
      homogeneous[j] = running;
    }
    scale /= m + order;
    const term = running * scale;
    sum += term;
    if (term <= sum * 1e-17) break;
  }
  return Math.exp(origin) * sum;
}
