import { describe, expect, it } from 'vitest';
import { ExponentialSum } from '../../src/transient/exponential-sum.js';
import {
  integralOfSquare,
  largestSize,
  lastAbove,
  type Piece,
  piecesOf,
  timeToReach,
} from '../../src/transient/piecewise.js';
import { accumulator, capacitor, circuitOf, NamedRun, resistor } from './net.js';

const rise = new ExponentialSum([0, 1], [600, -600]);
const fall = new ExponentialSum([1], [600]);
const whole = (signal: ExponentialSum): Piece[] => [{ start: 0, end: Infinity, signal }];
/** Up for 2 s, then down. */
const upAndDown: Piece[] = [
  { start: 0, end: 2, signal: rise },
  { start: 2, end: Infinity, signal: new ExponentialSum([1], [rise.at(2)]) },
];

describe('timeToReach', () => {
  it('is the textbook time of a rise, whichever its sign', () => {
    for (const signal of [rise, rise.times(-1)])
      expect(timeToReach(whole(signal), 570, 600)).toBeCloseTo(Math.log(20), 13);
  });
  it('looks through the pieces, over those without a value', () => {
    const late: Piece[] = [
      { start: 0, end: 5, signal: undefined },
      { start: 5, end: Infinity, signal: rise },
    ];
    expect(timeToReach(late, 570, 600)).toBeCloseTo(5 + Math.log(20), 13);
  });
  it('is never where the limit is the level', () => {
    expect(timeToReach(whole(rise), 600, 600)).toBe(Infinity);
  });
  it('is 0 where it starts there', () => {
    expect(timeToReach(whole(fall), 600, 600)).toBe(0);
  });
});

describe('lastAbove', () => {
  it('is the last crossing, not the first', () => {
    expect(lastAbove(upAndDown, 60, 600)).toBeCloseTo(2 + Math.log(rise.at(2) / 60), 12);
  });
  it('counts voltages of the other sign', () => {
    const reversed = upAndDown.map((piece) => ({ ...piece, signal: piece.signal!.times(-1) }));
    expect(lastAbove(reversed, 60, 600)).toBeCloseTo(2 + Math.log(rise.at(2) / 60), 12);
  });
  it('is 0 where it never is above, for ever where it stays, also where its limit is the level from above', () => {
    expect(lastAbove(whole(fall), 700, 600)).toBe(0);
    expect(lastAbove(whole(rise), 60, 600)).toBe(Infinity);
    expect(lastAbove(whole(new ExponentialSum([0, 1], [60, 10])), 60, 600)).toBe(Infinity);
    expect(lastAbove(whole(new ExponentialSum([0, 1], [60, -10])), 60, 600)).toBe(0);
  });
  it('finds a voltage that comes back: a small capacitor recharged by a larger one', () => {
    // e^−t·(…): below 60 V at first, above it from 0.05 s to 4.3 s.
    const back = new ExponentialSum([0.5, 50], [500, -480]);
    expect(lastAbove(whole(back), 60, 600)).toBeCloseTo(2 * Math.log(500 / 60), 9);
  });
  it('is the end of the piece in which it still is above', () => {
    const cut: Piece[] = [
      { start: 0, end: 1, signal: fall },
      { start: 1, end: Infinity, signal: ExponentialSum.constant(0) },
    ];
    expect(lastAbove(cut, 60, 600)).toBe(1);
  });
});

describe('largestSize', () => {
  it('finds a peak between the ends: the current into the second of two capacitors', () => {
    const hump = new ExponentialSum([1, 3], [5, -5]);
    const at = Math.log(3) / 2;
    expect(largestSize(whole(hump), Infinity)).toBeCloseTo(hump.at(at), 13);
    expect(largestSize(whole(hump.times(-1)), Infinity)).toBeCloseTo(hump.at(at), 13);
    expect(largestSize(whole(hump), 0.1)).toBeCloseTo(hump.at(0.1), 13);
  });
});

describe('integralOfSquare', () => {
  it('is the energy of the textbook discharge, however far it is taken', () => {
    expect(integralOfSquare(whole(fall), Infinity)).toBeCloseTo(180_000, 6);
    expect(integralOfSquare(whole(fall), 1)).toBeCloseTo(180_000 * -Math.expm1(-2), 6);
  });
  it('adds piece by piece', () => {
    const halves: Piece[] = [
      { start: 0, end: 0.7, signal: fall },
      { start: 0.7, end: Infinity, signal: new ExponentialSum([1], [fall.at(0.7)]) },
    ];
    expect(integralOfSquare(halves, Infinity)).toBeCloseTo(180_000, 6);
  });
  it('never ends where something keeps flowing', () => {
    expect(integralOfSquare(whole(new ExponentialSum([0, 1], [1e-6, 1])), Infinity)).toBe(Infinity);
  });
  it('ends in a resistor between two capacitors, whose current starts and ends at 0 but for rounding', () => {
    // Two stages: together they turn ½·(C₁ + C₂)·U² into heat, whatever the resistances (textbook).
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 600),
      resistor('r1', 'p', 'x', 1000),
      capacitor('c1', 'x', 'n', 5e-4),
      resistor('r2', 'x', 'y', 470),
      capacitor('c2', 'y', 'n', 3e-4),
    ]);
    const run = new NamedRun(circuit, []);
    const heat = (id: string, ohms: number) =>
      ohms *
      integralOfSquare(
        piecesOf(run.timeline, (solution) => solution.current(run.compiled.byId.get(id)!.index)),
        Infinity,
      );
    expect(heat('r2', 470)).toBeGreaterThan(0);
    expect(heat('r1', 1000) + heat('r2', 470)).toBeCloseTo(0.5 * 8e-4 * 600 ** 2, 8);
  });
});
