import type { Element, ResolvedCircuit } from '../../src/circuit/model.js';
import { type Big, big } from './big.js';
import { type BigMatrix, solveBig } from './big-matrix.js';

/**
 * The state equation of a switch state by another road than the one under test: the full tableau of Kirchhoff's laws (modified
 * nodal analysis), capacitors as voltage sources, solved with 64 digits.
 * Source: C. Ho, A. Ruehli, P. Brennan, "The modified nodal approach to network analysis", IEEE Trans. CAS 22 (1975).
 *
 * Capacitors must form no loop with each other and ideal sources, and ideal parts no loop at all.
 */
export interface StateEquation {
  /** Ids of the capacitors: the state, in this order. */
  readonly states: readonly string[];
  readonly farads: readonly Big[];
  /** Currents out of the capacitors for a unit voltage on each: i = −G·v + i₀. */
  readonly conductance: BigMatrix;
  readonly offset: readonly Big[];
  /** v(a) − v(b) at capacitor voltages v. */
  readonly voltage: (v: readonly Big[], a: string, b: string) => Big;
  readonly current: (v: readonly Big[], id: string) => Big;
}

interface Part {
  readonly id: string;
  readonly a: string;
  readonly b: string;
  readonly ohms?: number;
  readonly volts?: number;
  readonly farads?: number;
}

export function stateEquation(
  circuit: ResolvedCircuit,
  closed: readonly string[],
  open: readonly string[] = [],
): StateEquation {
  const parts = circuit.elements.flatMap((element) => partsOf(element, closed, open));
  const nodes = [...new Set(parts.flatMap(({ a, b }) => [a, b]))];
  const references = referenceNodes(parts, nodes);
  const branches = parts.filter(({ ohms }) => ohms === undefined || ohms === 0);
  const size = nodes.length + branches.length;
  const states = parts.filter(({ farads }) => farads !== undefined);
  const matrix = Array.from({ length: size }, () => Array.from({ length: size }, () => big(0)));
  const add = (row: number, column: number, value: Big) => {
    matrix[row]![column] = matrix[row]![column]!.plus(value);
  };
  const place = new Map(nodes.map((node, k) => [node, k]));
  for (const { a, b, ohms } of parts) {
    if (ohms === undefined || ohms === 0) continue;
    const [i, j] = [place.get(a)!, place.get(b)!];
    const g = big(1).div(big(ohms));
    add(i, i, g);
    add(j, j, g);
    add(i, j, g.neg());
    add(j, i, g.neg());
  }
  branches.forEach(({ a, b }, k) => {
    const [i, j, row] = [place.get(a)!, place.get(b)!, nodes.length + k];
    add(i, row, big(1));
    add(j, row, big(-1));
    add(row, i, big(1));
    add(row, j, big(-1));
  });
  // Kirchhoff's law at one node of each island follows from the others: in its place that node is at 0.
  for (const node of references)
    matrix[place.get(node)!] = matrix[0]!.map((_, column) => big(column === place.get(node) ? 1 : 0));
  // One right side for the sources, one for each capacitor at 1 V.
  const right = Array.from({ length: size }, (_, row) => {
    const branch = branches[row - nodes.length];
    return [big(branch?.volts ?? 0), ...states.map((state) => big(state === branch ? 1 : 0))];
  });
  const solved = solveBig(matrix, right);
  const row = (index: number, v: readonly Big[]): Big =>
    v.reduce((sum, each, k) => sum.plus(solved[index]![k + 1]!.times(each)), solved[index]![0]!);
  const branchRow = (part: Part) => nodes.length + branches.indexOf(part);
  const potential = (v: readonly Big[], node: string) => row(place.get(node)!, v);
  return {
    states: states.map(({ id }) => id),
    farads: states.map(({ farads }) => big(farads!)),
    conductance: states.map((state) => states.map((_, k) => solved[branchRow(state)]![k + 1]!.neg())),
    offset: states.map((state) => solved[branchRow(state)]![0]!),
    voltage: (v, a, b) => potential(v, a).minus(potential(v, b)),
    current: (v, id) => {
      const part = parts.find((each) => each.id === id)!;
      if (part.ohms === undefined || part.ohms === 0) return row(branchRow(part), v);
      return potential(v, part.a).minus(potential(v, part.b)).div(big(part.ohms));
    },
  };
}

/** C^−½·G·C^−½: its eigenvalues are the rates. */
export function scaledConductance({ conductance, farads }: StateEquation): BigMatrix {
  const roots = farads.map((c) => c.sqrt());
  return conductance.map((row, i) => row.map((g, j) => g.div(roots[i]!).div(roots[j]!)));
}

function partsOf(element: Element, closed: readonly string[], open: readonly string[]): Part[] {
  const { id } = element;
  const [a, b] = element.nodes;
  if (open.includes(id)) return [];
  switch (element.kind) {
    case 'accumulator': {
      const ohms = element.resistance?.nominal ?? 0;
      const inner = ohms > 0 ? `${id}+` : a;
      return [
        { id: ohms > 0 ? `${id}~` : id, a: inner, b, volts: element.voltage.nominal },
        ...(ohms > 0 ? [{ id, a, b: inner, ohms }] : []),
      ];
    }
    case 'capacitor': {
      const ohms = element.esr?.nominal ?? 0;
      const inner = ohms > 0 ? `${id}+` : a;
      return [
        { id, a: inner, b, farads: element.capacitance.nominal },
        ...(ohms > 0 ? [{ id: `${id}~`, a, b: inner, ohms }] : []),
      ];
    }
    case 'contact':
      if (closed.includes(id)) return [{ id, a, b, ohms: element.resistance?.nominal ?? 0 }];
      return element.openResistance === undefined ? [] : [{ id, a, b, ohms: element.openResistance.nominal }];
    case 'machine':
      return [];
    default:
      return [{ id, a, b, ohms: element.resistance?.nominal ?? 0 }];
  }
}

/** One node of each set that is joined by anything at all. */
function referenceNodes(parts: readonly Part[], nodes: readonly string[]): string[] {
  const island = new Map(nodes.map((node) => [node, node]));
  const find = (node: string): string => (island.get(node) === node ? node : find(island.get(node)!));
  for (const { a, b } of parts) island.set(find(a), find(b));
  return [...new Set(nodes.map(find))];
}
