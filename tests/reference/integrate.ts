import { createRequire } from 'node:module';

/** What is used of `odex`: its own types are written for looser settings than ours. */
interface Integrator {
  absoluteTolerance: number;
  relativeTolerance: number;
  initialStepSize: number;
  maxSteps: number;
  solve(
    slope: (time: number, state: readonly number[]) => number[],
    from: number,
    start: readonly number[],
    end: number,
  ): { readonly y: number[]; readonly outcome: number };
}

const { Solver } = createRequire(import.meta.url)('odex') as { readonly Solver: new (size: number) => Integrator };

/**
 * The state at `end`, by E. Hairer and G. Wanner's extrapolation method at a tolerance a thousand times below what the tests
 * compare to.
 */
export function integrate(
  slope: (time: number, state: readonly number[]) => number[],
  start: readonly number[],
  from: number,
  end: number,
  tolerance = 1e-13,
): number[] {
  const solver = new Solver(start.length);
  solver.relativeTolerance = tolerance;
  solver.absoluteTolerance = tolerance;
  solver.initialStepSize = (end - from) / 1000;
  solver.maxSteps = 400_000;
  const { y, outcome } = solver.solve(slope, from, start, end);
  if (outcome !== 0) throw new Error('the integrator did not get to the end');
  return y;
}
