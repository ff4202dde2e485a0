import type { ResolvedCircuit } from '../circuit/model.js';
import { comparePointers, pointerKeys } from '../circuit/pointer.js';
import { ANY_PART } from '../limits/judgement.js';

/** Pointers in words, each once: `#/circuit/elements/3/ratings/power` of the resistor r1 reads `ratings.power of r1`. */
export function fieldNames(circuit: ResolvedCircuit, pointers: readonly string[]): string {
  const sorted = [...new Set(pointers)].sort(comparePointers);
  return sorted.map((pointer) => fieldName(circuit, pointer)).join(', ');
}

function fieldName(circuit: ResolvedCircuit, pointer: string): string {
  if (pointer === ANY_PART) return 'narrower tolerances';
  const element = circuit.elements.find((candidate) => pointer.startsWith(`${candidate.pointer}/`));
  if (element !== undefined)
    return `${pointerKeys(`#${pointer.slice(element.pointer.length)}`).join('.')} of ${element.id}`;
  const inCircuit = pointer.startsWith(`${circuit.pointer}/`);
  return pointerKeys(inCircuit ? `#${pointer.slice(circuit.pointer.length)}` : pointer).join('.');
}
