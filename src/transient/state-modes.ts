import type { ConductanceNetwork } from './conductance-network.js';
import { oneSidedJacobi } from './one-sided-jacobi.js';

/** The natural modes of one group of capacitors: u(t) = V·y(t), each yᵢ of its own rate. */
export interface StateModes {
  /** 1/s, ≥ 0; exactly 0 where nothing discharges the mode. */
  readonly rates: Float64Array;
  /** Node k's share of mode i at [k·n + i]. */
  readonly shapes: Float64Array;
  /** y = weights·u: row i at [i·n + k]. */
  readonly weights: Float64Array;
  /** Steady node voltages under the series voltages of each channel, 0 for modes of rate 0: channel c, node k at [c·n + k]. */
  readonly steady: Float64Array;
}

/**
 * Modes of capacitors that all hang on one common node (`ground`), one a node.
 *
 * The nodes leave the network in order of the largest rate left; what that leaves is G = L·D·Lᵀ without a subtraction.
 * One-sided Jacobi on C^−½·L·D^½ then gives every rate and mode to small relative error, however far apart they lie.
 * Purely resistive nodes must have been taken out before.
 *
 * @param network consumed: its nodes are taken out
 * @param nodes one a capacitor, none of them `ground`
 * @param capacitance F, one a node, > 0
 */
export function starModes(
  network: ConductanceNetwork,
  nodes: readonly number[],
  capacitance: Float64Array,
): StateModes {
  const n = nodes.length;
  const roots = Float64Array.from(capacitance, Math.sqrt);
  const columns = new Float64Array(n * n);
  const left = new Set<number>(nodes.keys());
  const loose: number[] = [];
  let column = 0;
  while (left.size > 0) {
    const pivot = fastest(network, nodes, capacitance, left);
    left.delete(pivot);
    const node = nodes[pivot] as number;
    const total = network.takeOut(node);
    if (total === 0) loose.push(pivot);
    else {
      const root = Math.sqrt(total);
      columns[column * n + pivot] = root / (roots[pivot] as number);
      for (const other of left) {
        const g = network.conductance(node, nodes[other] as number);
        columns[column * n + other] = -g / (root * (roots[other] as number));
      }
      column += 1;
    }
  }
  oneSidedJacobi(columns, n);
  const rates = new Float64Array(n);
  const shapes = new Float64Array(n * n);
  const weights = new Float64Array(n * n);
  let next = 0;
  const put = (unit: (k: number) => number, rate: number): void => {
    rates[next] = rate;
    for (let k = 0; k < n; k += 1) {
      shapes[k * n + next] = unit(k) / (roots[k] as number);
      weights[next * n + k] = unit(k) * (roots[k] as number);
    }
    next += 1;
  };
  for (let i = 0; i < n; i += 1) {
    let square = 0;
    for (let k = 0; k < n; k += 1) square += (columns[i * n + k] as number) ** 2;
    if (square === 0) continue;
    const norm = Math.sqrt(square);
    put((k) => (columns[i * n + k] as number) / norm, square);
  }
  for (const pivot of loose) {
    const share = looseShape(network, nodes, pivot);
    let square = 0;
    for (let k = 0; k < n; k += 1) square += (share[k] as number) ** 2 * (capacitance[k] as number);
    const norm = Math.sqrt(square);
    put((k) => ((share[k] as number) * (roots[k] as number)) / norm, 0);
  }
  return { rates, shapes, weights, steady: steadyVoltages(network, nodes) };
}

function fastest(
  network: ConductanceNetwork,
  nodes: readonly number[],
  capacitance: Float64Array,
  left: ReadonlySet<number>,
): number {
  let best = -1;
  let most = -1;
  for (const k of left) {
    const rate = network.total(nodes[k] as number) / (capacitance[k] as number);
    if (rate > most) {
      most = rate;
      best = k;
    }
  }
  return best;
}

/** Node voltages when the loose node stands at 1 V: 1 on all that conducts to it, 0 elsewhere. */
function looseShape(network: ConductanceNetwork, nodes: readonly number[], pivot: number): Float64Array {
  const shape = new Float64Array(nodes.length);
  const place = new Map(nodes.map((node, k) => [node, k]));
  shape[pivot] = 1;
  for (const node of [...network.order].reverse()) {
    const k = place.get(node);
    if (k === undefined || k === pivot) continue;
    // Connected nodes without a leak stand together exactly: no rounding may creep into a conserved charge.
    if (
      nodes.some((other, j) => shape[j] === 1 && network.follows(node, other) && network.conductance(node, other) > 0)
    )
      shape[k] = 1;
  }
  return shape;
}

/** By back-substitution through the nodes in the reverse of the order they left; loose nodes and ground stand at 0. */
function steadyVoltages(network: ConductanceNetwork, nodes: readonly number[]): Float64Array {
  const n = nodes.length;
  const steady = new Float64Array(network.channels * n);
  const place = new Map(nodes.map((node, k) => [node, k]));
  for (let c = 0; c < network.channels; c += 1) {
    for (const node of [...network.order].reverse()) {
      const k = place.get(node);
      if (k === undefined) continue;
      const total = network.total(node);
      if (total === 0) continue;
      let sum = 0;
      for (let other = 0; other < network.size; other += 1) {
        if (!network.follows(node, other)) continue;
        const j = place.get(other);
        const voltage = j === undefined ? 0 : (steady[c * n + j] as number);
        sum += network.conductance(node, other) * voltage - network.shortCircuit(node, other, c);
      }
      steady[c * n + k] = sum / total;
    }
  }
  return steady;
}
