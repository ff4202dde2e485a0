import { type CompiledCircuit, type CompiledElement, Mode, type Modes } from './compiled-circuit.js';

/** Elements by id that do not stand as they do at rest. */
export interface Unrested {
  /** Taken out of the circuit. */
  readonly absent?: ReadonlySet<string>;
  readonly closed?: ReadonlySet<string>;
  readonly open?: ReadonlySet<string>;
}

/** How every element stands before a run: contacts at rest, connectors and disconnects closed, loads and machines idle, but for those named. */
export function startModes(compiled: CompiledCircuit, unrested: Unrested = {}): Modes {
  return Uint8Array.from(compiled.elements, (element) => startMode(element, unrested));
}

function startMode({ id, source }: CompiledElement, { absent, closed, open }: Unrested): number {
  if (absent?.has(id) === true) return Mode.absent;
  if (closed?.has(id) === true) return Mode.closed;
  if (open?.has(id) === true) return Mode.open;
  if (source.kind === 'contact') return source.rest === 'closed' ? Mode.closed : Mode.open;
  return source.kind === 'load' || source.kind === 'machine' ? Mode.open : Mode.closed;
}
