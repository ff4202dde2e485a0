import { CircuitFault, type Fault } from '../circuit/fault.js';
import type { CompiledCircuit } from './compiled-circuit.js';
import type { TimelineEvent } from './timeline-input.js';
import { TooMuchWork } from './work-budget.js';

/** Changes of state after which a run is refused: a circuit that switches this often is not a pre-charge circuit. */
export const MOST_CHANGES = 4000;
/** Segments after which a run is refused: those of a constant-power load that has to be followed count too. */
const MOST_SEGMENTS = 40_000;
/** Changes of behaviour at one instant after which a run is refused: the circuit has no state that holds. */
const MOST_AT_ONCE = 50;

const CODE = 'too-many-changes';

/** What a run has gone through so far. */
interface Course {
  readonly segments: readonly unknown[];
  readonly events: readonly TimelineEvent[];
  /** Changes of behaviour since time last went on. */
  readonly atOnce: number;
}

/** @throws CircuitFault where a run goes on without end */
export function refuseEndless(compiled: CompiledCircuit, { segments, events, atOnce }: Course): void {
  if (atOnce > MOST_AT_ONCE) throw noStateHolds(compiled, lastChanged(events, MOST_AT_ONCE));
  if (events.length > MOST_CHANGES) throw tooManyChanges(compiled, lastChanged(events, MOST_AT_ONCE));
  if (segments.length > MOST_SEGMENTS) throw tooManySegments(compiled);
}

/** Ids of what changed of itself in the last so many events. */
export function lastChanged(events: readonly TimelineEvent[], count: number): string[] {
  return events.slice(-count).flatMap(({ changed }) => changed);
}

/**
 * Loads that find no state that holds.
 * @param changing ids of what has changed without end
 */
export function noStateHolds(compiled: CompiledCircuit, changing: readonly string[]): CircuitFault {
  return faultOf(
    compiled,
    changing,
    'would start and stop without end: as soon as it draws, the voltage across it falls to where it stops again',
  );
}

/** Loads that switch too often to be followed. */
function tooManyChanges(compiled: CompiledCircuit, changing: readonly string[]): CircuitFault {
  return faultOf(
    compiled,
    changing,
    `starts and stops more often than the ${MOST_CHANGES.toString()} times that are followed`,
  );
}

/** One entry a load, or one for the circuit where it is not loads that change. */
function faultOf(compiled: CompiledCircuit, changing: readonly string[], what: string): CircuitFault {
  const loads = [...new Set(changing)].flatMap((id) => {
    const source = compiled.byId.get(id)?.source;
    return source?.kind === 'load' ? [source] : [];
  });
  const faults = loads.map(
    ({ id, pointer }): Fault => ({
      pointer,
      code: CODE,
      detail: `The load ${id} ${what}.`,
      accepted:
        'its input capacitor, where none is described across it; a startsAbove at which what feeds it can bear what it draws; or a stopsBelow further below it',
    }),
  );
  return new CircuitFault(faults.length > 0 ? faults : [changesOften(compiled)]);
}

/** A run whose loads of constant power take too many steps to follow. */
function tooManySegments({ circuit }: CompiledCircuit): TooMuchWork {
  return new TooMuchWork([
    {
      pointer: circuit.pointer,
      code: CODE,
      detail: `One run of the circuit takes more than ${MOST_SEGMENTS.toString()} steps to follow its loads of constant power.`,
      accepted: 'a resistance or a current in place of a load of constant power',
    },
  ]);
}

function changesOften({ circuit }: CompiledCircuit): Fault {
  return {
    pointer: circuit.pointer,
    code: CODE,
    detail: `The circuit changes its state more than ${MOST_CHANGES.toString()} times, or at one instant without end.`,
    accepted: 'loads whose stopsBelow lies further below their startsAbove',
  };
}
