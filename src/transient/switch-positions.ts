import type { Contact, Step } from '../circuit/model.js';
import { type CompiledElement, Mode, type Modes } from './compiled-circuit.js';
import { startModes } from './start-modes.js';
import type { TimelineInput } from './timeline-input.js';

/** What has moved at an instant, by id. */
export interface Moves {
  readonly opened: string[];
  readonly closed: string[];
}

/** Where every contact, connector and disconnect stands, and which contacts are on their way back to rest. */
export class SwitchPositions {
  /** Of loads and machines too, but those are set by others. */
  readonly modes: Modes;
  private readonly returning = new Map<number, { readonly time: number; readonly step: number }>();

  constructor(private readonly input: TimelineInput) {
    this.modes = input.starts?.slice() ?? startModes(input.compiled);
  }

  /** Takes a step at its time: release, then close, then open. */
  take(step: Step, index: number, time: number): Moves {
    const moves: Moves = { opened: [], closed: [] };
    if (step.release) this.release(index, time, moves);
    for (const id of step.close) this.move(id, Mode.closed, moves);
    for (const id of step.open) this.move(id, Mode.open, moves);
    return moves;
  }

  /** When the next contact arrives at rest; undefined: none is on its way. */
  nextReturn(): number | undefined {
    return this.returning.size === 0 ? undefined : Math.min(...[...this.returning.values()].map(({ time }) => time));
  }

  /** Brings to rest what has arrived by then. */
  completeReturns(time: number): Moves & { readonly step: number | null } {
    const moves: Moves = { opened: [], closed: [] };
    let step: number | null = null;
    for (const [index, due] of [...this.returning]) {
      if (due.time > time) continue;
      step = due.step;
      this.returning.delete(index);
      this.set(this.input.compiled.elements[index] as CompiledElement, restOf(index, this.input), moves);
    }
    return { ...moves, step };
  }

  private release(step: number, time: number, moves: Moves): void {
    for (const element of this.input.compiled.elements) {
      const contact = element.source;
      if (contact.kind !== 'contact' || contact.suppliedBy === 'independent') continue;
      const rest = restMode(contact);
      const delay = this.input.releaseTime?.(contact) ?? contact.releaseTime ?? 0;
      if (delay <= 0) {
        this.set(element, rest, moves);
        continue;
      }
      const due = time + delay;
      const earlier = this.returning.get(element.index)?.time ?? Infinity;
      if (this.modes[element.index] !== rest && due < earlier) this.returning.set(element.index, { time: due, step });
    }
  }

  /** Contacts of one relay move together: off rest all of them, or back to rest all of them. */
  private move(id: string, mode: number, moves: Moves): void {
    const { compiled } = this.input;
    const element = compiled.byId.get(id);
    if (element === undefined) return;
    const contact = element.source;
    const mates =
      contact.kind === 'contact' && contact.relay !== undefined
        ? compiled.elements.filter(({ source }) => source.kind === 'contact' && source.relay === contact.relay)
        : [element];
    const toRest = contact.kind === 'contact' && restMode(contact) === mode;
    for (const mate of mates) {
      this.returning.delete(mate.index);
      const rest = restOf(mate.index, this.input);
      const other = rest === Mode.closed ? Mode.open : Mode.closed;
      this.set(mate, mate === element ? mode : toRest ? rest : other, moves);
    }
  }

  private set(element: CompiledElement, mode: number, moves: Moves): void {
    const before = this.modes[element.index];
    if (before === Mode.absent || before === mode) return;
    this.modes[element.index] = mode;
    (mode === Mode.closed ? moves.closed : moves.opened).push(element.id);
  }
}

function restMode(contact: Contact): number {
  return contact.rest === 'closed' ? Mode.closed : Mode.open;
}

function restOf(index: number, { compiled }: TimelineInput): number {
  const source = compiled.elements[index]?.source;
  return source?.kind === 'contact' ? restMode(source) : Mode.open;
}
