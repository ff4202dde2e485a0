import { CircuitFault } from '../../circuit/fault.js';
import type { ResolvedCircuit } from '../../circuit/model.js';
import { isIdealLoop } from '../../transient/ideal-loop-fault.js';
import { TooMuchWork } from '../../transient/work-budget.js';

/** The field of a load that decides whether it finds a state that holds; nothing else is undetermined for want of it. */
const DECIDES = 'startsAbove';

/** Why a circuit has no figures as it is described, and what would give it some. */
export interface NotComputable {
  readonly reason: 'ideal-loop' | 'no-state-holds';
  /** Fields, by pointer. */
  readonly missing: readonly string[];
  /** What the fields belong to, by id. */
  readonly elements: readonly string[];
}

/**
 * Reads a refused computation: a loop without resistance, or loads that start and stop without end. Undefined: the error is of
 * another kind.
 */
export function notComputable(circuit: ResolvedCircuit, error: unknown): NotComputable | undefined {
  if (!(error instanceof CircuitFault) || error instanceof TooMuchWork) return undefined;
  const faulty = new Set(error.faults.map(({ pointer }) => pointer));
  const elements = circuit.elements.filter(({ pointer }) => faulty.has(pointer));
  if (elements.length < faulty.size) return undefined;
  const told = (reason: NotComputable['reason'], fieldOf: (kind: string) => string): NotComputable => ({
    reason,
    missing: elements.map(({ kind, pointer }) => `${pointer}/${fieldOf(kind)}`),
    elements: elements.map(({ id }) => id),
  });
  if (isIdealLoop(error)) return told('ideal-loop', (kind) => (kind === 'capacitor' ? 'esr' : 'resistance'));
  const switching = error.faults.every(({ code }) => code === 'too-many-changes');
  return switching ? told('no-state-holds', () => DECIDES) : undefined;
}

/** Whether a field is that of such a load: open though it may well be stated. */
export function decidesLoad(field: string): boolean {
  return field.endsWith(`/${DECIDES}`);
}

/** Loads that start and stop without end, where those are all that keeps a figure from being computed. */
export function endlessLoads({ elements }: ResolvedCircuit, missing: readonly string[]): string[] {
  const loads = missing.map((field) => elements.find(({ pointer }) => field === `${pointer}/${DECIDES}`));
  return loads.includes(undefined) ? [] : [...new Set(loads.flatMap((load) => load?.id ?? []))];
}
