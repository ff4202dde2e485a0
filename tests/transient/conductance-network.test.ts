import { describe, expect, it } from 'vitest';
import { ConductanceNetwork } from '../../src/transient/conductance-network.js';
import { type Big, big, relativeError } from './big.js';
import { solveBig } from './big-matrix.js';
import { decades, random } from './random.js';

interface Branch {
  readonly a: number;
  readonly b: number;
  readonly g: number;
  readonly volts: number;
}

function randomBranches(next: () => number, size: number): Branch[] {
  const branches: Branch[] = [];
  const add = (a: number, b: number) =>
    branches.push({ a, b, g: decades(next, -9, 3), volts: next() < 0.3 ? 400 * (next() - 0.5) : 0 });
  for (let node = 1; node < size; node += 1) add(node, Math.floor(next() * node));
  for (let k = 0; k < size; k += 1) {
    const a = Math.floor(next() * size);
    const b = Math.floor(next() * size);
    if (a !== b) add(a, b);
  }
  return branches;
}

function networkOf(branches: readonly Branch[], size: number): ConductanceNetwork {
  const network = new ConductanceNetwork(size);
  for (const { a, b, g, volts } of branches) {
    network.add(a, b, g);
    network.drive(a, b, g * volts);
  }
  return network;
}

/** The nodal matrix with its diagonal, in 64 digits: what the network never forms. */
function nodalBig(branches: readonly Branch[], size: number): Big[][] {
  const matrix = Array.from({ length: size }, () => Array.from({ length: size }, () => big(0)));
  for (const { a, b, g } of branches) {
    for (const [i, j, sign] of [
      [a, a, 1],
      [b, b, 1],
      [a, b, -1],
      [b, a, -1],
    ] as const)
      matrix[i]![j] = matrix[i]![j]!.plus(big(sign * g));
  }
  return matrix;
}

describe('a conductance network', () => {
  it('has the conductances of the reduced nodal matrix, each to its own digits, however far apart', () => {
    // Schur complement by dense elimination with 64 digits.
    const next = random(31);
    let worst = 0;
    for (let round = 0; round < 20; round += 1) {
      const size = 4 + (round % 5);
      const branches = randomBranches(next, size);
      const network = networkOf(branches, size);
      const out = Array.from({ length: size - 3 }, (_, k) => k + 3);
      for (const node of out) network.takeOut(node);
      const g = nodalBig(branches, size);
      const inner = solveBig(
        out.map((i) => out.map((j) => g[i]![j]!)),
        out.map((i) => [0, 1, 2].map((j) => g[i]![j]!)),
      );
      for (const i of [0, 1, 2]) {
        for (const j of [0, 1, 2]) {
          if (i === j) continue;
          const reduced = out.reduce((sum, k, at) => sum.minus(g[i]![k]!.times(inner[at]![j]!)), g[i]![j]!).neg();
          const mine = network.conductance(i, j);
          if (mine === 0) expect(reduced.abs().toNumber()).toBeLessThan(1e-40);
          else worst = Math.max(worst, relativeError(mine, reduced));
        }
      }
    }
    // Five eliminations of sums and products without a subtraction.
    expect(worst).toBeLessThan(5e-15);
  });

  it('gives back every node voltage, sources and injected currents included', () => {
    const next = random(32);
    let worst = 0;
    for (let round = 0; round < 20; round += 1) {
      const size = 4 + (round % 4);
      const branches = randomBranches(next, size);
      const network = networkOf(branches, size);
      const injected = Array.from({ length: size }, (_, node) => (node > 0 && next() < 0.4 ? 1e-3 * next() : 0));
      injected.forEach((current, node) => network.inject(node, current));
      for (let node = size - 1; node > 0; node -= 1) network.takeOut(node);
      // Node 0 at 0 V; the others follow in the reverse of the order they left in.
      const volts = new Array<number>(size).fill(0);
      for (const node of [...network.order].reverse()) {
        let sum = network.injection(node);
        for (let other = 0; other < size; other += 1) {
          if (network.follows(node, other))
            sum += network.conductance(node, other) * volts[other]! - network.shortCircuit(node, other);
        }
        volts[node] = sum / network.total(node);
      }
      const g = nodalBig(branches, size);
      const rest = Array.from({ length: size - 1 }, (_, k) => k + 1);
      const into = rest.map((node) =>
        branches.reduce(
          (sum, branch) =>
            sum.minus(big(branch.a === node ? branch.g : branch.b === node ? -branch.g : 0).times(big(branch.volts))),
          big(injected[node]!),
        ),
      );
      const exact = solveBig(
        rest.map((i) => rest.map((j) => g[i]![j]!)),
        into.map((value) => [value]),
      );
      const scale = Math.max(1, ...exact.map(([value]) => Math.abs(value!.toNumber())));
      rest.forEach((node, k) => {
        worst = Math.max(worst, Math.abs(big(volts[node]!).minus(exact[k]![0]!).toNumber()) / scale);
      });
    }
    // Currents of either sign do cancel: relative to the largest voltage.
    expect(worst).toBeLessThan(1e-12);
  });

  it('turns a star into the mesh of the theorem', () => {
    // Three 1 Ω arms make a triangle of 3 Ω (star–delta, textbook).
    const network = new ConductanceNetwork(4);
    for (const node of [0, 1, 2]) network.add(3, node, 1);
    expect(network.takeOut(3)).toBe(3);
    for (const [a, b] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const)
      expect(network.conductance(a, b)).toBe(1 / 3);
  });

  it('keeps a leak of 10 MΩ beside a cable of 1 mΩ', () => {
    const network = new ConductanceNetwork(3);
    network.add(0, 1, 1e3);
    network.add(1, 2, 1e-7);
    network.takeOut(1);
    expect(Math.abs(network.conductance(0, 2) * (1e7 + 1e-3) - 1)).toBeLessThan(3e-16);
  });

  it('ignores a branch from a node to itself, and drops a node that nothing holds', () => {
    const network = new ConductanceNetwork(2);
    network.add(0, 0, 5);
    network.drive(0, 0, 5);
    network.inject(0, 1);
    expect(network.takeOut(0)).toBe(0);
    expect(network.injection(1)).toBe(0);
    expect(network.order).toEqual([0]);
  });

  it('keeps the drives of each channel apart', () => {
    const network = new ConductanceNetwork(3, 2);
    network.add(0, 1, 2);
    network.add(1, 2, 2);
    network.drive(0, 1, 6, 0);
    network.drive(1, 2, 10, 1);
    network.takeOut(1);
    expect([network.shortCircuit(0, 2, 0), network.shortCircuit(0, 2, 1)]).toEqual([3, 5]);
    expect(network.shortCircuit(2, 0, 0)).toBe(-3);
  });
});
