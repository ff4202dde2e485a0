import type { CompiledCircuit, Modes, Values } from './compiled-circuit.js';
import { StatePlan } from './state-plan.js';

interface Known {
  last: StatePlan | undefined;
  readonly byKey: Map<string, StatePlan>;
}

const PLANS = Symbol('plans');

/** The plan of a switch state, made on its first use. */
export function planOf(compiled: CompiledCircuit, modes: Modes, values: Values): StatePlan {
  let known = compiled.kept.get(PLANS) as Known | undefined;
  if (known === undefined) {
    known = { last: undefined, byKey: new Map() };
    compiled.kept.set(PLANS, known);
  }
  if (known.last?.isOf(modes, values) === true) return known.last;
  const key = keyOf(compiled, modes, values);
  let plan = known.byKey.get(key);
  if (plan === undefined) {
    plan = new StatePlan(compiled, modes.slice(), values);
    known.byKey.set(key, plan);
  }
  known.last = plan;
  return plan;
}

/** Modes, and which parameters are 0, as one character an element. */
function keyOf(compiled: CompiledCircuit, modes: Modes, values: Values): string {
  let key = '';
  for (const { index, primary, secondary } of compiled.elements) {
    const first = values[primary] === 0 ? 4 : 0;
    const second = secondary >= 0 && values[secondary] === 0 ? 8 : 0;
    key += String.fromCharCode(65 + (modes[index] as number) + first + second);
  }
  return key;
}
