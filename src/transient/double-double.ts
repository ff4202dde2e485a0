/**
 * Arithmetic with about 32 digits: a number is an unevaluated sum hi + lo of two doubles.
 *
 * Used where capacitors share no common node and the elimination therefore has to subtract. Error-free sums and products
 * after T. J. Dekker, "A floating-point technique for extending the available precision", Numer. Math. 18 (1971).
 */
export interface DoubleDouble {
  readonly hi: number;
  readonly lo: number;
}

export const DD_ZERO: DoubleDouble = { hi: 0, lo: 0 };

const SPLITTER = 134217729; // 2^27 + 1

function quickSum(a: number, b: number): DoubleDouble {
  const hi = a + b;
  return { hi, lo: b - (hi - a) };
}

export function ddFrom(value: number): DoubleDouble {
  return { hi: value, lo: 0 };
}

export function ddAdd(x: DoubleDouble, y: DoubleDouble): DoubleDouble {
  const hi = x.hi + y.hi;
  const part = hi - x.hi;
  const rest = x.hi - (hi - part) + (y.hi - part);
  const lowHi = x.lo + y.lo;
  const lowPart = lowHi - x.lo;
  const lowRest = x.lo - (lowHi - lowPart) + (y.lo - lowPart);
  const first = quickSum(hi, rest + lowHi);
  return quickSum(first.hi, first.lo + lowRest);
}

export function ddNegate(x: DoubleDouble): DoubleDouble {
  return { hi: -x.hi, lo: -x.lo };
}

export function ddSubtract(x: DoubleDouble, y: DoubleDouble): DoubleDouble {
  return ddAdd(x, ddNegate(y));
}

/** a·b exactly. */
export function ddProduct(a: number, b: number): DoubleDouble {
  const hi = a * b;
  const ta = SPLITTER * a;
  const a1 = ta - (ta - a);
  const a2 = a - a1;
  const tb = SPLITTER * b;
  const b1 = tb - (tb - b);
  const b2 = b - b1;
  return { hi, lo: a1 * b1 - hi + a1 * b2 + a2 * b1 + a2 * b2 };
}

export function ddMultiply(x: DoubleDouble, y: DoubleDouble): DoubleDouble {
  const p = ddProduct(x.hi, y.hi);
  return quickSum(p.hi, p.lo + (x.hi * y.lo + x.lo * y.hi));
}

export function ddDivide(x: DoubleDouble, y: DoubleDouble): DoubleDouble {
  const q1 = x.hi / y.hi;
  const r1 = ddSubtract(x, ddMultiply(y, ddFrom(q1)));
  const q2 = r1.hi / y.hi;
  const r2 = ddSubtract(r1, ddMultiply(y, ddFrom(q2)));
  const first = quickSum(q1, q2);
  return quickSum(first.hi, first.lo + r2.hi / y.hi);
}

/** x ≥ 0. */
export function ddSquareRoot(x: DoubleDouble): DoubleDouble {
  if (x.hi <= 0) return DD_ZERO;
  const root = Math.sqrt(x.hi);
  const rest = ddSubtract(x, ddProduct(root, root));
  return quickSum(root, rest.hi / (2 * root));
}
