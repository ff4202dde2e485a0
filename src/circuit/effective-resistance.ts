import { adjacencyOf } from './adjacency.js';
import type { Conducts } from './conducts-at.js';
import type { ResolvedCircuit } from './model.js';
import { NodeUnion } from './node-union.js';

/**
 * The resistance in Ω that a meter would show between two nodes, everything but the conducting elements left out: exactly
 * 0 where elements of 0 Ω join them, Infinity where nothing does (or where a node is not one of the circuit's).
 *
 * Nodes joined by 0 Ω become one; every other node but the two is eliminated by the star-mesh transformation (a star with
 * conductances gᵢ becomes a mesh with gᵢ·gⱼ/Σg; a textbook formula, from memory). Only sums, products and quotients of positive
 * numbers occur, so nothing cancels and each conductance keeps its relative accuracy over many decades.
 */
export function effectiveResistance(circuit: ResolvedCircuit, a: string, b: string, conducts: Conducts): number {
  const { indexOf } = adjacencyOf(circuit);
  const [first, second] = [indexOf.get(a), indexOf.get(b)];
  if (first === undefined || second === undefined) return Number.POSITIVE_INFINITY;
  const size = circuit.nodes.length;
  const union = new NodeUnion(size);
  // From, to and conductance of each resistance, one behind the other.
  const resistive: number[] = [];
  for (const element of circuit.elements) {
    const ohms = conducts(element);
    if (ohms === undefined || !(ohms >= 0)) continue;
    const from = indexOf.get(element.nodes[0]) as number;
    const to = indexOf.get(element.nodes[1]) as number;
    const conductance = 1 / ohms;
    // A resistance too small to have a finite reciprocal is none.
    if (!Number.isFinite(conductance)) union.join(from, to);
    else if (conductance > 0) resistive.push(from, to, conductance);
  }
  const poleA = union.find(first);
  const poleB = union.find(second);
  if (poleA === poleB) return 0;
  const mesh = new Mesh(size);
  for (let k = 0; k < resistive.length; k += 3)
    mesh.connect(
      union.find(resistive[k] as number),
      union.find(resistive[k + 1] as number),
      resistive[k + 2] as number,
    );
  mesh.reduceTo(poleA, poleB);
  const left = mesh.between(poleA, poleB);
  return left === 0 ? Number.POSITIVE_INFINITY : 1 / left;
}

/** Conductances between nodes, S. */
class Mesh {
  private readonly conductances: number[];
  /** By node; a node without any is no part of the mesh. */
  private readonly neighbours: (number[] | undefined)[];

  constructor(private readonly size: number) {
    this.conductances = new Array<number>(size * size).fill(0);
    this.neighbours = new Array<number[] | undefined>(size).fill(undefined);
  }

  between(a: number, b: number): number {
    return this.conductances[a * this.size + b] as number;
  }

  connect(a: number, b: number, conductance: number): void {
    if (a === b) return;
    const before = this.between(a, b);
    if (before === 0) {
      (this.neighbours[a] ??= []).push(b);
      (this.neighbours[b] ??= []).push(a);
    }
    this.conductances[a * this.size + b] = before + conductance;
    this.conductances[b * this.size + a] = before + conductance;
  }

  /** Removes every node but the two, the one with the fewest branches first, so that the meshes stay small. */
  reduceTo(poleA: number, poleB: number): void {
    for (;;) {
      let next = -1;
      let star: readonly number[] = [];
      for (let node = 0; node < this.size; node += 1) {
        const own = this.neighbours[node];
        if (own === undefined || node === poleA || node === poleB) continue;
        if (next >= 0 && own.length >= star.length) continue;
        next = node;
        star = own;
      }
      if (next < 0) return;
      this.remove(next, star);
    }
  }

  private remove(node: number, star: readonly number[]): void {
    this.neighbours[node] = undefined;
    let sum = 0;
    for (const other of star) sum += this.between(node, other);
    for (const other of star) {
      const own = this.neighbours[other];
      own?.splice(own.indexOf(node), 1);
    }
    for (let i = 1; i < star.length; i += 1) {
      const one = star[i] as number;
      const share = this.between(node, one) / sum;
      for (let j = 0; j < i; j += 1)
        this.connect(one, star[j] as number, share * this.between(node, star[j] as number));
    }
  }
}
