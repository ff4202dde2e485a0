import type { ResolvedCircuit, Resistor } from '../../circuit/model.js';
import { compileCircuit } from '../../transient/compiled-circuit.js';
import type { Conditions } from '../conditions.js';
import { assumedTolerance } from './tolerance-of.js';

/** What the computation took where the description is silent, by pointer, in order of the elements. */
export function assumptionsOf(
  circuit: ResolvedCircuit,
  conditions: Conditions,
): { pointer: string; assumed: string }[] {
  const compiled = compileCircuit(circuit);
  const tolerance = assumedTolerance(compiled, conditions);
  const found: { pointer: string; assumed: string }[] = [];
  for (const parameter of compiled.parameters) {
    if (!parameter.stated) {
      found.push({ pointer: parameter.pointer, assumed: '0 Ω: not stated' });
      continue;
    }
    if (parameter.range.toleranceStated) continue;
    const share = tolerance(parameter);
    found.push({
      pointer: parameter.pointer,
      assumed:
        share > 0
          ? `±${Number((share * 100).toPrecision(3)).toString()} %: tolerance not stated`
          : 'exact: tolerance not stated, and the ruleset takes none for this part',
    });
  }
  for (const element of circuit.elements) {
    if (element.kind === 'resistor' && (element.resistanceCurve !== undefined || isThermistor(element.technology))) {
      found.push({
        pointer: `${element.pointer}/resistance`,
        assumed: 'the same at every temperature: how it changes with its own heat is not computed',
      });
    }
    if (element.kind !== 'contact' || element.releaseTime !== undefined || element.suppliedBy === 'independent')
      continue;
    found.push({
      pointer: `${element.pointer}/releaseTime`,
      assumed: `0 to ${conditions.maximumReleaseTime.toString()} s: not stated`,
    });
  }
  return found;
}

function isThermistor(technology: Resistor['technology']): boolean {
  return technology === 'ptc' || technology === 'ntc';
}
