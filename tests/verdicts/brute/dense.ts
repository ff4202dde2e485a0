/** A branch between two nodes: conductance in S, and the voltage of an ideal source in series with it (a − b, open). */
export interface Branch {
  readonly id: string;
  readonly a: string;
  readonly b: string;
  readonly siemens: number;
  readonly volts: number;
  /** A drawn from a to b whatever the voltage. */
  readonly amperes?: number;
}

/** Node voltages; nodes of different islands have no voltage between them. */
export class Solved {
  constructor(
    private readonly volts: ReadonlyMap<string, number>,
    private readonly island: ReadonlyMap<string, number>,
  ) {}

  /** v(a) − v(b); undefined across islands. */
  between(a: string, b: string): number | undefined {
    if (a === b) return 0;
    if (this.island.get(a) === undefined || this.island.get(a) !== this.island.get(b)) return undefined;
    return this.volts.get(a)! - this.volts.get(b)!;
  }

  /** A from a to b through a branch. */
  current({ a, b, siemens, volts, amperes = 0 }: Branch): number {
    return siemens * (this.between(a, b)! - volts) + amperes;
  }
}

/** A network whose conductances are known: the nodal matrix inverted once, by elimination with pivots, then any sources. */
export class Dense {
  private readonly islands = new Map<string, number>();
  private readonly rows = new Map<string, number>();
  private readonly inverse: Float64Array[];

  constructor(branches: readonly Branch[]) {
    const parent = new Map<string, string>();
    const root = (node: string): string => {
      let at = node;
      while (parent.get(at) !== at) at = parent.get(at)!;
      return at;
    };
    for (const { a, b } of branches) for (const node of [a, b]) if (!parent.has(node)) parent.set(node, node);
    for (const { a, b, siemens } of branches) if (siemens > 0) parent.set(root(a), root(b));
    const roots = [...new Set([...parent.keys()].map(root))];
    for (const node of parent.keys()) {
      this.islands.set(node, roots.indexOf(root(node)));
      // Each island's root is its reference.
      if (root(node) !== node) this.rows.set(node, this.rows.size);
    }
    const size = this.rows.size;
    const matrix = Array.from({ length: size }, () => new Float64Array(2 * size));
    matrix.forEach((row, index) => (row[size + index] = 1));
    const stamp = (row: string, column: string, value: number) => {
      const [i, j] = [this.rows.get(row), this.rows.get(column)];
      if (i !== undefined && j !== undefined) matrix[i]![j]! += value;
    };
    for (const { a, b, siemens } of branches) {
      if (a === b) continue;
      stamp(a, a, siemens);
      stamp(b, b, siemens);
      stamp(a, b, -siemens);
      stamp(b, a, -siemens);
    }
    eliminate(matrix);
    this.inverse = matrix.map((row) => row.slice(size));
  }

  solve(branches: readonly Branch[]): Solved {
    const size = this.rows.size;
    const driven = new Float64Array(size);
    for (const { a, b, siemens, volts, amperes = 0 } of branches) {
      const flow = siemens * volts - amperes;
      if (flow === 0 || a === b) continue;
      const [i, j] = [this.rows.get(a), this.rows.get(b)];
      if (i !== undefined) driven[i]! += flow;
      if (j !== undefined) driven[j]! -= flow;
    }
    const volts = new Map<string, number>();
    for (const node of this.islands.keys()) {
      const row = this.rows.get(node);
      let sum = 0;
      if (row !== undefined) for (let k = 0; k < size; k += 1) sum += this.inverse[row]![k]! * driven[k]!;
      volts.set(node, sum);
    }
    return new Solved(volts, this.islands);
  }
}

export function solve(branches: readonly Branch[]): Solved {
  return new Dense(branches).solve(branches);
}

/** Ω between two nodes with every source at rest; Infinity where nothing joins them. */
export function resistanceBetween(branches: readonly Branch[], a: string, b: string): number {
  if (a === b) return 0;
  const dead = branches.map((branch) => ({ ...branch, volts: 0, amperes: 0 }));
  const tested = [...dead, { id: 'test', a, b, siemens: 0, volts: 0, amperes: -1 }];
  const volts = solve(tested).between(a, b);
  return volts === undefined ? Infinity : volts;
}

/** Gauss-Jordan on [A | 1], with the largest pivot of the column. */
function eliminate(matrix: Float64Array[]): void {
  const size = matrix.length;
  for (let column = 0; column < size; column += 1) {
    let pivot = column;
    for (let row = column; row < size; row += 1) {
      if (Math.abs(matrix[row]![column]!) > Math.abs(matrix[pivot]![column]!)) pivot = row;
    }
    [matrix[column], matrix[pivot]] = [matrix[pivot]!, matrix[column]!];
    const top = matrix[column]!;
    const scale = 1 / top[column]!;
    for (let k = column; k < top.length; k += 1) top[k]! *= scale;
    for (let row = 0; row < size; row += 1) {
      const factor = matrix[row]![column]!;
      if (row === column || factor === 0) continue;
      for (let k = column; k < top.length; k += 1) matrix[row]![k]! -= factor * top[k]!;
    }
  }
}
