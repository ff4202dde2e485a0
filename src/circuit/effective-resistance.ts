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
  const index = new Map(circuit.nodes.map((node, position) => [node, position]));
  const [first, second] = [index.get(a), index.get(b)];
  if (first === undefined || second === undefined) return Number.POSITIVE_INFINITY;
  const union = new NodeUnion(circuit.nodes.length);
  const resistive: Array<{ from: number; to: number; conductance: number }> = [];
  for (const element of circuit.elements) {
    const ohms = conducts(element);
    const from = index.get(element.nodes[0]);
    const to = index.get(element.nodes[1]);
    if (ohms === undefined || from === undefined || to === undefined || !(ohms >= 0)) continue;
    const conductance = 1 / ohms;
    // A resistance too small to have a finite reciprocal is none.
    if (!Number.isFinite(conductance)) union.join(from, to);
    else if (conductance > 0) resistive.push({ from, to, conductance });
  }
  const poleA = union.find(first);
  const poleB = union.find(second);
  if (poleA === poleB) return 0;
  const stars = new Map<number, Map<number, number>>();
  for (const { from, to, conductance } of resistive) connect(stars, union.find(from), union.find(to), conductance);
  eliminate(stars, poleA, poleB);
  const left = stars.get(poleA)?.get(poleB);
  return left === undefined ? Number.POSITIVE_INFINITY : 1 / left;
}

type Stars = Map<number, Map<number, number>>;

function connect(stars: Stars, a: number, b: number, conductance: number): void {
  if (a === b) return;
  addTo(stars, a, b, conductance);
  addTo(stars, b, a, conductance);
}

function addTo(stars: Stars, from: number, to: number, conductance: number): void {
  const star = stars.get(from) ?? new Map<number, number>();
  star.set(to, (star.get(to) ?? 0) + conductance);
  stars.set(from, star);
}

/** Removes every node but the two, the one with the fewest branches first, so that the meshes stay small. */
function eliminate(stars: Stars, poleA: number, poleB: number): void {
  for (;;) {
    let next: number | undefined;
    let fewest = Number.POSITIVE_INFINITY;
    for (const [node, star] of stars) {
      if (node !== poleA && node !== poleB && star.size < fewest) {
        next = node;
        fewest = star.size;
      }
    }
    if (next === undefined) return;
    const branches = [...(stars.get(next) ?? [])];
    stars.delete(next);
    const sum = branches.reduce((total, [, conductance]) => total + conductance, 0);
    for (const [position, [node, conductance]] of branches.entries()) {
      stars.get(node)?.delete(next);
      for (const [other, otherConductance] of branches.slice(0, position)) {
        connect(stars, node, other, (conductance / sum) * otherConductance);
      }
    }
  }
}
