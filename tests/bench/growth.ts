import { compileCircuit, nominalValues } from '../../src/transient/compiled-circuit.js';
import { runTimeline } from '../../src/transient/timeline.js';
import { accumulator, capacitor, circuitOf, meter, resistor } from '../transient/net.js';
import { perCall } from './measure.js';

/** Cost of one state, assembly included, as the number of capacitors grows. */
export function growth(): void {
  console.log('one switch state of a ladder, assembly included');
  let before: number | undefined;
  for (const count of [5, 10, 20, 40, 80]) {
    const rungs = Array.from({ length: count }, (_, k) => [
      resistor(`r${String(k)}`, `n${String(k)}`, `n${String(k + 1)}`, 10 + k),
      capacitor(`c${String(k)}`, `n${String(k + 1)}`, 'g', 1e-5 / (1 + (k % 7))),
    ]).flat();
    const circuit = compileCircuit(
      circuitOf([accumulator('pack', 'n0', 'g', 600, 0.1), ...rungs, meter('m', `n${String(count)}`, 'g', 47_000)]),
    );
    const values = nominalValues(circuit);
    const seconds = perCall(() => {
      runTimeline({ compiled: circuit, values, steps: [], until: 1, openCircuitVoltage: 600 });
    });
    const factor = before === undefined ? '' : `  ${(seconds / before).toFixed(1)} × for twice as many (8 is cubic)`;
    console.log(`  ${String(count).padStart(3)} capacitors ${(seconds * 1e3).toFixed(3).padStart(9)} ms${factor}`);
    before = seconds;
  }
}
