import { expect, it } from 'vitest';
import { compileCircuit } from '../../src/transient/compiled-circuit.js';
import { MOST_SOLVED, spend, TooMuchWork } from '../../src/transient/work-budget.js';
import { accumulator, circuitOf, resistor } from './net.js';

it('ends a circuit whose runs together take more steps than a request may cost, each circuit by itself', () => {
  const circuit = () => compileCircuit(circuitOf([accumulator('a', 'p', 'n', 400), resistor('r', 'p', 'n', 10)]));
  const first = circuit();
  for (let step = 0; step < MOST_SOLVED; step += 1) spend(first);
  expect(() => spend(first)).toThrow(TooMuchWork);
  expect(() => spend(first)).toThrow(/more than 3000000 steps/);
  expect(() => spend(circuit())).not.toThrow();
});
