import { describe, expect, it } from 'vitest';
import { ConductanceNetwork } from '../../src/transient/conductance-network.js';
import { Elimination } from '../../src/transient/elimination.js';
import { ReducedNetwork } from '../../src/transient/reduced-network.js';
import { big, relativeError } from './big.js';
import { solveBig } from './big-matrix.js';
import { decades, random } from './random.js';

interface Branch {
  readonly ma: number;
  readonly mb: number;
  readonly g: number;
  readonly volts: number;
}

function branchesOf(next: () => number, size: number): Branch[] {
  const branches: Branch[] = [];
  const add = (ma: number, mb: number) =>
    branches.push({ ma, mb, g: decades(next, -9, 3), volts: next() < 0.3 ? 400 * (next() - 0.5) : 0 });
  for (let node = 1; node < size; node += 1) add(node, Math.floor(next() * node));
  for (let k = 0; k < size; k += 1) {
    const [a, b] = [Math.floor(next() * size), Math.floor(next() * size)];
    if (a !== b) add(a, b);
  }
  return branches;
}

function reduced(branches: readonly Branch[], size: number, stays: readonly boolean[]): ReducedNetwork {
  const elimination = new Elimination(size, branches, stays);
  const network = new ReducedNetwork(elimination, 1);
  for (const { ma, mb, g, volts } of branches) {
    const edge = elimination.edge(ma, mb);
    network.add(edge, g);
    network.drive(edge, (ma < mb ? 1 : -1) * g * volts);
  }
  network.eliminate();
  return network;
}

describe('a network reduced along a known elimination', () => {
  it('has the conductances and driven currents that taking its nodes out one by one leaves', () => {
    for (let seed = 1; seed <= 60; seed += 1) {
      const next = random(seed);
      const size = 3 + Math.floor(next() * 8);
      const branches = branchesOf(next, size);
      const stays = Array.from({ length: size }, (_, node) => node < 2 || next() < 0.3);
      const network = reduced(branches, size, stays);
      const plain = new ConductanceNetwork(size);
      for (const { ma, mb, g, volts } of branches) {
        plain.add(ma, mb, g);
        plain.drive(ma, mb, g * volts);
      }
      for (const { node } of network.elimination.steps) plain.takeOut(node);
      for (let a = 0; a < size; a += 1) {
        for (let b = 0; b < size; b += 1) {
          if (a === b || !stays[a] || !stays[b]) continue;
          expect(network.conductance(a, b)).toBeCloseTo(plain.conductance(a, b), 12);
          expect(Math.abs(network.conductance(a, b) - plain.conductance(a, b))).toBeLessThanOrEqual(
            1e-13 * plain.conductance(a, b),
          );
          const scale = branches.reduce((sum, { g, volts }) => sum + Math.abs(g * volts), 0);
          expect(Math.abs(network.shortCircuit(a, b) - plain.shortCircuit(a, b))).toBeLessThanOrEqual(1e-12 * scale);
        }
      }
    }
  });

  it('shows between its last two nodes what a dense solve in 64 digits shows, to 1e-13, over twelve decades', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const size = 7;
      const branches = branchesOf(random(100 + seed), size);
      const stays = Array.from({ length: size }, (_, node) => node < 2);
      const own = reduced(branches, size, stays).conductance(0, 1);
      const rows = Array.from({ length: size - 1 }, (_, i) =>
        Array.from({ length: size - 1 }, (__, j) =>
          branches.reduce((sum, { ma, mb, g }) => {
            const [a, b] = [i + 1, j + 1];
            if (a === b) return ma === a || mb === a ? sum.plus(big(g)) : sum;
            return (ma === a && mb === b) || (ma === b && mb === a) ? sum.minus(big(g)) : sum;
          }, big(0)),
        ),
      );
      // 1 A into node 1 and out of node 0: the voltage is the resistance.
      const pushed = Array.from({ length: size - 1 }, (_, k) => [big(k === 0 ? 1 : 0)]);
      const volts = solveBig(rows, pushed);
      expect(relativeError(1 / own, volts[0]![0]!)).toBeLessThan(1e-13);
    }
  });

  it('drops a node without conductance, and what is injected into it', () => {
    const elimination = new Elimination(3, [{ ma: 0, mb: 2 }], [true, true, false]);
    const network = new ReducedNetwork(elimination, 1);
    network.inject(2, 1);
    network.eliminate();
    expect(network.injection(0)).toBe(0);
    expect(network.conductance(0, 2)).toBe(0);
  });
});
