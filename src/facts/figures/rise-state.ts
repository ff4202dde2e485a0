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

/**
 * Reads the rise off the order that is judged: all that has moved before the first bridged relay closes. An order that closes
 * it before the pre-charge path is complete, or opens the path again first, is a finding of its own; the rise is then that
 * of the path while it is complete, all that the order moves along with it included.
 */
export function riseState(circuit: ResolvedCircuit, topology: Topology, steps: readonly Step[]): RiseState {
  const state = new Map<string, boolean>();
  for (const element of circuit.elements) {
    if (element.kind === 'contact') state.set(element.id, element.rest === 'closed');
    else if (element.kind === 'connector' || element.kind === 'disconnect') state.set(element.id, true);
  }
  const last = new Set(topology.bridgedRelays);
  const isComplete = (): boolean =>
    topology.completingRelays.every((id) => state.get(id) === true) &&
    topology.prechargeRelays.some((id) => state.get(id) === true);
  let complete: Map<string, boolean> | undefined;
  let closed = false;
  for (const step of steps) {
    closed ||= step.close.some((id) => last.has(id));
    if (step.release || (closed && complete !== undefined)) break;
    move(
      circuit,
      state,
      step.close.filter((id) => !last.has(id)),
      true,
    );
    move(circuit, state, step.open, false);
    if (isComplete()) complete = new Map(state);
  }
  const rise = complete ?? state;
  // The rise is through the pre-charge branch even where the order never closes it: one mistake is one finding.
  if (complete === undefined) move(circuit, rise, [...topology.completingRelays, ...topology.prechargeRelays], true);
  move(circuit, rise, topology.bridgedRelays, false);
  const after = new Map(rise);
  move(circuit, after, topology.bridgedRelays, true);
  return {
    closed: side(rise, true),
    open: side(rise, false),
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
