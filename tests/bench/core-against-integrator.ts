import { compileCircuit, nominalValues } from '../../src/transient/compiled-circuit.js';
import { ExponentialSum } from '../../src/transient/exponential-sum.js';
import { runTimeline } from '../../src/transient/timeline.js';
import { integrate } from '../reference/integrate.js';
import { accumulator, capacitor, circuitOf, contact, meter, resistor } from '../transient/net.js';
import { alternate } from './measure.js';

const VOLTS = 600;
const PRECHARGE = 1000;
const FARADS = 500e-6;
const METER = 47_000;
const DISCHARGE = 4000;
const RISE = 5;
const FALL = 10;

/**
 * A rise and a fall of two capacitors joined by a cable, exactly and by a general-purpose integrator at 1e-9. The registry's `odex`
 * (explicit extrapolation after Hairer and Wanner) is the method; no implicit one that is well kept was found there.
 */
export function coreAgainstIntegrator(): void {
  console.log('rise and fall of two capacitors, exact against extrapolation (odex) at 1e-9');
  for (const stiffness of [10, 1e3, 1e6]) {
    // The cable's rate is 2/(R·C), the slowest of the circuit about 1/(2·R_pre·C).
    const cable = (4 * PRECHARGE) / stiffness;
    const circuit = compileCircuit(
      circuitOf([
        accumulator('pack', 'a', 'g', VOLTS),
        contact('relay', 'a', 'b'),
        resistor('precharge', 'b', 'p', PRECHARGE),
        resistor('cable', 'p', 'q', cable),
        capacitor('first', 'p', 'g', FARADS),
        capacitor('second', 'q', 'g', FARADS),
        meter('meter', 'p', 'g', METER),
        contact('discharge-relay', 'p', 'd', { rest: 'closed' }),
        resistor('discharge', 'd', 'g', DISCHARGE),
      ]),
    );
    const values = nominalValues(circuit);
    const steps = [
      { at: 0, close: ['relay'], open: ['discharge-relay'], release: false },
      { at: RISE, close: ['discharge-relay'], open: ['relay'], release: false },
    ];
    const exact = (): number => {
      const { segments } = runTimeline({
        compiled: circuit,
        values,
        steps,
        until: RISE + FALL,
        openCircuitVoltage: VOLTS,
      });
      const last = segments.at(-1);
      const signal = last?.solution.voltage(circuit.nodes.get('p') ?? -1, circuit.nodes.get('g') ?? -1);
      return signal instanceof ExponentialSum && last !== undefined ? signal.at(RISE + FALL - last.start) : Number.NaN;
    };
    const slope =
      (source: number, leak: number) =>
      (_: number, [p = 0, q = 0]: readonly number[]): number[] => [
        ((VOLTS - p) * source - (p - q) / cable - p * leak) / FARADS,
        (p - q) / cable / FARADS,
      ];
    const stepped = (): number => {
      const top = integrate(slope(1 / PRECHARGE, 1 / METER), [0, 0], 0, RISE, 1e-9);
      return integrate(slope(0, 1 / METER + 1 / DISCHARGE), top, RISE, RISE + FALL, 1e-9)[0] ?? Number.NaN;
    };
    const label = `  stiffness ${stiffness.toExponential(0)}`.padEnd(22);
    try {
      const apart = Math.abs(exact() - stepped()) / VOLTS;
      const rounds = stiffness > 1e4 ? 1 : 5;
      const { first, second, ratio, least, most } = alternate(exact, stepped, rounds, stiffness > 1e4 ? 0 : 0.1);
      console.log(
        `${label}${(first * 1e6).toFixed(1).padStart(9)} µs ${(second * 1e6).toFixed(0).padStart(10)} µs   ratio ${ratio.toFixed(0)} (${least.toFixed(0)} to ${most.toFixed(0)}), they agree to ${apart.toExponential(0)}`,
      );
    } catch (error) {
      console.log(`${label} the integrator gives up: ${error instanceof Error ? error.message : 'no reason'}`);
    }
  }
}
