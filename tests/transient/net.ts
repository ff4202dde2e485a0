import type {
  Accumulator,
  Capacitor,
  Connector,
  Contact,
  Disconnect,
  Element,
  Fuse,
  Load,
  Machine,
  Meter,
  ResolvedCircuit,
  Resistor,
  Step,
  Toleranced,
} from '../../src/circuit/model.js';
import {
  type CompiledCircuit,
  compileCircuit,
  Mode,
  type Modes,
  nominalValues,
} from '../../src/transient/compiled-circuit.js';
import { ExponentialSum } from '../../src/transient/exponential-sum.js';
import { StateSolution } from '../../src/transient/state-solution.js';
import { runTimeline, type Timeline, type TimelineInput } from '../../src/transient/timeline.js';

type More<T> = Partial<Omit<T, 'id' | 'nodes' | 'kind'>>;
type Value = number | Toleranced;

export function exact(nominal: number): Toleranced {
  return { min: nominal, nominal, max: nominal, toleranceStated: true };
}

export function within(nominal: number, tolerance: number): Toleranced {
  return { min: nominal * (1 - tolerance), nominal, max: nominal * (1 + tolerance), toleranceStated: true };
}

const range = (value: Value): Toleranced => (typeof value === 'number' ? exact(value) : value);

function base(id: string, a: string, b: string) {
  return { id, nodes: [a, b] as const, zone: 'vehicle' as const, container: 'main', pointer: `#/circuit/${id}` };
}

export function accumulator(id: string, a: string, b: string, volts: Value, ohms?: Value): Accumulator {
  const resistance = ohms === undefined ? {} : { resistance: range(ohms) };
  return { ...base(id, a, b), kind: 'accumulator', voltage: range(volts), ...resistance };
}
export function resistor(id: string, a: string, b: string, ohms: Value, more: More<Resistor> = {}): Resistor {
  return { ...base(id, a, b), kind: 'resistor', resistance: range(ohms), ...more };
}
export function meter(id: string, a: string, b: string, ohms: Value): Meter {
  return { ...base(id, a, b), kind: 'meter', resistance: range(ohms) };
}
export function fuse(id: string, a: string, b: string, more: More<Fuse> = {}): Fuse {
  return { ...base(id, a, b), kind: 'fuse', ...more };
}
export function disconnect(id: string, a: string, b: string, more: More<Disconnect> = {}): Disconnect {
  return { ...base(id, a, b), kind: 'disconnect', ...more };
}
export function connector(id: string, a: string, b: string): Connector {
  return { ...base(id, a, b), kind: 'connector', separates: 'main' };
}
export function contact(id: string, a: string, b: string, more: More<Contact> = {}): Contact {
  return { ...base(id, a, b), kind: 'contact', rest: 'open', ...more };
}
export function capacitor(id: string, a: string, b: string, farads: Value, more: More<Capacitor> = {}): Capacitor {
  return { ...base(id, a, b), kind: 'capacitor', capacitance: range(farads), initialVoltage: 0, ...more };
}
export function load(id: string, a: string, b: string, more: More<Load>): Load {
  const phases = ['precharge', 'drive', 'shutdown'] as const;
  return { ...base(id, a, b), kind: 'load', startsAbove: 0, stopsBelow: 0, activeIn: phases, ...more };
}
export function machine(id: string, a: string, b: string, emf: Value, more: More<Machine> = {}): Machine {
  return { ...base(id, a, b), kind: 'machine', backEmf: range(emf), ...more };
}

/** A circuit as the reader leaves it: elements in order of id, nodes sorted. */
export function circuitOf(elements: readonly Element[], link?: readonly [string, string]): ResolvedCircuit {
  const sorted = [...elements].sort((x, y) => (x.id < y.id ? -1 : 1));
  const nodes = [...new Set(sorted.flatMap((element) => element.nodes))].sort();
  return {
    elements: sorted,
    nodes,
    linkStated: link !== undefined,
    control: {},
    pointer: '#/circuit',
    ...(link === undefined ? {} : { link }),
  };
}

/** Contacts at rest or as named, loads and machines out, all else in. */
export function modesOf(
  compiled: CompiledCircuit,
  closed: readonly string[] = [],
  open: readonly string[] = [],
): Modes {
  return Uint8Array.from(compiled.elements, ({ id, source }) => {
    if (closed.includes(id)) return Mode.closed;
    if (open.includes(id) || source.kind === 'machine') return Mode.open;
    if (source.kind === 'contact') return source.rest === 'closed' ? Mode.closed : Mode.open;
    return source.kind === 'load' && source.resistance === undefined ? Mode.open : Mode.closed;
  });
}

/** One switch state at nominal values from the capacitors' initial voltages. */
export function solutionOf(circuit: ResolvedCircuit, closed: readonly string[] = [], open: readonly string[] = []) {
  const compiled = compileCircuit(circuit);
  return new StateSolution(compiled, nominalValues(compiled), modesOf(compiled, closed, open), {
    capacitorVoltages: compiled.capacitors.map((index) => {
      const { source } = compiled.elements[index]!;
      return source.kind === 'capacitor' ? source.initialVoltage : 0;
    }),
  });
}

export function step(when: Partial<Step>, moves: Partial<Step> = {}): Step {
  return { close: [], open: [], release: false, ...when, ...moves };
}

/** A run at nominal values, with readers by name. */
export class NamedRun {
  readonly compiled: CompiledCircuit;
  readonly timeline: Timeline;

  constructor(circuit: ResolvedCircuit, steps: readonly Step[], more: Partial<TimelineInput> = {}) {
    this.compiled = more.compiled ?? compileCircuit(circuit);
    this.timeline = runTimeline({
      compiled: this.compiled,
      values: nominalValues(this.compiled),
      steps,
      until: Infinity,
      openCircuitVoltage: 100,
      ...more,
    });
  }

  get events() {
    return this.timeline.events;
  }

  /** Just after the instant. */
  private read(time: number, signal: (solution: StateSolution) => ExponentialSum | string): number | string {
    const segment = this.timeline.segments.findLast(({ start }) => start <= time)!;
    const sum = signal(segment.solution);
    return sum instanceof ExponentialSum ? sum.at(time - segment.start) : sum;
  }

  voltage(a: string, b: string, time: number): number | string {
    return this.read(time, (solution) => solution.voltage(this.compiled.nodes.get(a)!, this.compiled.nodes.get(b)!));
  }

  current(id: string, time: number): number | string {
    return this.read(time, (solution) => solution.current(this.compiled.byId.get(id)!.index));
  }
}

/** The sum behind a voltage or current; fails where there is none. */
export function sumOf(signal: ExponentialSum | string): ExponentialSum {
  if (!(signal instanceof ExponentialSum)) throw new Error(`no value: ${signal}`);
  return signal;
}
