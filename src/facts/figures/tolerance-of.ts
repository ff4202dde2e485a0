import { type Box, boxOf } from '../../transient/box.js';
import type { CompiledCircuit, Parameter } from '../../transient/compiled-circuit.js';
import type { Conditions } from '../conditions.js';

/** The relative tolerance that the ruleset takes where a part states none; 0 for contacts, fuses, accumulators, loads. */
export function assumedTolerance(compiled: CompiledCircuit, conditions: Conditions): (parameter: Parameter) => number {
  return (parameter) => {
    const kind = compiled.byId.get(parameter.element)?.kind;
    if (kind === 'resistor' && parameter.field === 'resistance') return conditions.assumedTolerance.resistor;
    if (kind === 'capacitor' && parameter.field === 'capacitance') return conditions.assumedTolerance.capacitor;
    if (kind === 'meter') return conditions.assumedTolerance.meter;
    return 0;
  };
}

export function circuitBox(compiled: CompiledCircuit, conditions: Conditions): Box {
  return boxOf(compiled, assumedTolerance(compiled, conditions));
}
