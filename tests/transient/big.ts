import { type BigNumber, bignumberDependencies, create, type FactoryFunctionMap } from 'mathjs';

export type Big = BigNumber;

/** Significant digits: what 12 decades of rates squared cost by cancellation leaves 40. */
const DIGITS = 64;

const math = create(bignumberDependencies as FactoryFunctionMap, { number: 'BigNumber', precision: DIGITS });

/** The number a double stands for, exactly (its shortest decimal is not). */
export function big(value: number): Big {
  if (value === 0) return math.bignumber(0);
  const exponent = Math.floor(Math.log2(Math.abs(value))) - 52;
  // Two factors, so that neither overflows where the value is very small.
  const half = Math.trunc(exponent / 2);
  const mantissa = value / 2 ** half / 2 ** (exponent - half);
  return math
    .bignumber(mantissa)
    .times(math.bignumber(2).pow(half))
    .times(math.bignumber(2).pow(exponent - half));
}

/** Relative difference of a double from a number of many digits; absolute where that is 0. */
export function relativeError(value: number, exact: Big): number {
  const difference = big(value).minus(exact).abs();
  return (exact.isZero() ? difference : difference.div(exact.abs())).toNumber();
}
