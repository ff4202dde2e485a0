/**
 * A square matrix as P·L·U by Gauss elimination with the largest pivot of each column (partial pivoting). What it solves leaves a
 * residual of a few roundings of its own size, however ill-conditioned the matrix.
 */
export class FactoredMatrix {
  private constructor(
    private readonly rows: readonly (readonly number[])[],
    /** Row of the matrix that became row k. */
    private readonly order: readonly number[],
  ) {}

  /** @returns undefined where a pivot is 0 or no number */
  static of(matrix: readonly (readonly number[])[]): FactoredMatrix | undefined {
    const rows = matrix.map((row) => [...row]);
    const order = [...rows.keys()];
    for (let k = 0; k < rows.length; k += 1) {
      let pivot = k;
      for (let i = k + 1; i < rows.length; i += 1) if (size(rows, i, k) > size(rows, pivot, k)) pivot = i;
      exchange(rows, pivot, k);
      exchange(order, pivot, k);
      const row = rows[k] as number[];
      const value = row[k] as number;
      if (!(Math.abs(value) > 0 && Number.isFinite(value))) return undefined;
      for (let i = k + 1; i < rows.length; i += 1) {
        const other = rows[i] as number[];
        const factor = (other[k] as number) / value;
        other[k] = factor;
        if (factor === 0) continue;
        for (let j = k + 1; j < rows.length; j += 1) other[j] = (other[j] as number) - factor * (row[j] as number);
      }
    }
    return new FactoredMatrix(rows, order);
  }

  /** x with A·x = b. */
  solve(b: readonly number[]): number[] {
    const { rows } = this;
    const x = this.order.map((row) => b[row] as number);
    for (let i = 1; i < x.length; i += 1) {
      const row = rows[i] as readonly number[];
      for (let j = 0; j < i; j += 1) x[i] = (x[i] as number) - (row[j] as number) * (x[j] as number);
    }
    for (let i = x.length - 1; i >= 0; i -= 1) {
      const row = rows[i] as readonly number[];
      for (let j = i + 1; j < x.length; j += 1) x[i] = (x[i] as number) - (row[j] as number) * (x[j] as number);
      x[i] = (x[i] as number) / (row[i] as number);
    }
    return x;
  }

  /** x with Aᵀ·x = b. */
  solveTransposed(b: readonly number[]): number[] {
    const { rows } = this;
    const y = [...b];
    for (let i = 0; i < y.length; i += 1) {
      const row = rows[i] as readonly number[];
      y[i] = (y[i] as number) / (row[i] as number);
      for (let j = i + 1; j < y.length; j += 1) y[j] = (y[j] as number) - (row[j] as number) * (y[i] as number);
    }
    for (let i = y.length - 1; i > 0; i -= 1) {
      const row = rows[i] as readonly number[];
      for (let j = 0; j < i; j += 1) y[j] = (y[j] as number) - (row[j] as number) * (y[i] as number);
    }
    const x = new Array<number>(y.length).fill(0);
    this.order.forEach((row, k) => {
      x[row] = y[k] as number;
    });
    return x;
  }
}

function size(rows: readonly (readonly number[])[], i: number, k: number): number {
  return Math.abs(rows[i]?.[k] as number);
}

function exchange(list: unknown[], i: number, k: number): void {
  const one = list[i];
  list[i] = list[k];
  list[k] = one;
}
