import type { ResolvedCircuit, Step } from '../../circuit/model.js';
import type { Topology } from '../facts.js';

/** Which contacts, connectors and disconnects are closed while the link rises, and which close last. */
export interface RiseState {
  readonly closed: ReadonlySet<string>;
  readonly open: ReadonlySet<string>;
  /** The same once the last isolation relays have closed. */
  readonly closedAfter: ReadonlySet<string>;
  readonly openAfter: ReadonlySet<string>;
}

/** Reads the rise off the order that is judged: all that has moved before the first bridged relay closes. */
export function riseState(circuit: ResolvedCircuit, topology: Topology, steps: readonly Step[]): RiseState {
  const state = new Map<string, boolean>();
  for (const element of circuit.elements) {
    if (element.kind === 'contact') state.set(element.id, element.rest === 'closed');
    else if (element.kind === 'connector' || element.kind === 'disconnect') state.set(element.id, true);
  }
  const last = new Set(topology.bridgedRelays);
  for (const step of steps) {
    if (step.release || step.close.some((id) => last.has(id))) break;
    move(circuit, state, step.close, true);
    move(circuit, state, step.open, false);
  }
  // The rise is through the pre-charge branch even where the order closes it too late or opens it too soon: the order itself
  // is judged elsewhere, and one mistake is one finding.
  move(circuit, state, [...topology.completingRelays, ...topology.prechargeRelays], true);
  move(circuit, state, topology.bridgedRelays, false);
  const after = new Map(state);
  move(circuit, after, topology.bridgedRelays, true);
  return {
    closed: side(state, true),
    open: side(state, false),
    closedAfter: side(after, true),
    openAfter: side(after, false),
  };
}

function side(state: ReadonlyMap<string, boolean>, wanted: boolean): Set<string> {
  return new Set([...state].filter(([, closed]) => closed === wanted).map(([id]) => id));
}

/** Contacts of one relay move together: off rest all of them, or back to rest all of them. */
function move(circuit: ResolvedCircuit, state: Map<string, boolean>, ids: readonly string[], closed: boolean): void {
  for (const id of ids) {
    const element = circuit.elements.find((each) => each.id === id);
    if (element === undefined) continue;
    state.set(id, closed);
    if (element.kind !== 'contact' || element.relay === undefined) continue;
    const atRest = (element.rest === 'closed') === closed;
    for (const mate of circuit.elements) {
      if (mate.kind !== 'contact' || mate.relay !== element.relay || mate.id === id) continue;
      state.set(mate.id, (mate.rest === 'closed') === atRest);
    }
  }
}
