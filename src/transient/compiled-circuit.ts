import { LastFew } from '../circuit/last-few.js';
import type { Element, ElementKind, Load, ResolvedCircuit, Toleranced } from '../circuit/model.js';

/** One number of the circuit that the computation uses, with its range. */
export interface Parameter {
  readonly element: string;
  /** Field of the element: `resistance`, `esr`, … */
  readonly field: string;
  readonly range: Toleranced;
  /** Where the value stands (or would stand) in the request. */
  readonly pointer: string;
  /** False where the field is absent and the computation takes 0 for it. */
  readonly stated: boolean;
}

/** An element by the numbers of its nodes and parameters. −1: has none. */
export interface CompiledElement {
  readonly index: number;
  readonly id: string;
  readonly kind: ElementKind;
  readonly a: number;
  readonly b: number;
  /** resistance; for an accumulator its voltage, a capacitor its capacitance, a machine its back-EMF; a load's one value. */
  readonly primary: number;
  /** An accumulator's or a machine's resistance, a capacitor's ESR, a contact's openResistance. */
  readonly secondary: number;
  /** What a load's one value is; undefined for other kinds. */
  readonly load: 'resistance' | 'current' | 'power' | undefined;
  readonly source: Element;
}

/** What an element does in one switch state; index into `Modes`. */
export const Mode = { absent: 0, open: 1, closed: 2, constant: 3 } as const;
/** One `Mode` an element. A load: open = asleep, closed = its linear range, constant = its constant range. A machine: open = its diodes block. */
export type Modes = Uint8Array;
/** One number a parameter. A plain array: V8 keeps typed arrays of this size outside its heap, and hundreds are made for a circuit. */
export type Values = number[];

/** A circuit with its names replaced by numbers, ready to be solved many times. */
export interface CompiledCircuit {
  readonly circuit: ResolvedCircuit;
  readonly nodes: ReadonlyMap<string, number>;
  readonly elements: readonly CompiledElement[];
  readonly byId: ReadonlyMap<string, CompiledElement>;
  readonly parameters: readonly Parameter[];
  /** Indices of the capacitors, in order of id. */
  readonly capacitors: readonly number[];
  /** What is worked out of it later and kept with it, each thing by a key that only its maker has. */
  readonly kept: Map<symbol, unknown>;
}

const ZERO: Toleranced = { min: 0, nominal: 0, max: 0, toleranceStated: true };

const known = new LastFew<ResolvedCircuit, CompiledCircuit>(4);

/** Numbers the nodes, elements and parameters of a circuit, once for each of the last few. Elements keep their order of id. */
export function compileCircuit(circuit: ResolvedCircuit): CompiledCircuit {
  return known.get(circuit, () => compile(circuit));
}

function compile(circuit: ResolvedCircuit): CompiledCircuit {
  const nodes = new Map(circuit.nodes.map((name, index) => [name, index]));
  const parameters: Parameter[] = [];
  const parameter = (element: Element, field: string, range: Toleranced | undefined): number => {
    parameters.push({
      element: element.id,
      field,
      range: range ?? ZERO,
      pointer: `${element.pointer}/${field}`,
      stated: range !== undefined,
    });
    return parameters.length - 1;
  };
  const elements = circuit.elements.map((source, index): CompiledElement => {
    const [primary, secondary] = parametersOf(source, parameter);
    // One shape for all kinds: what reads them in every solution then finds each field at one place.
    return {
      index,
      id: source.id,
      kind: source.kind,
      a: nodes.get(source.nodes[0]) ?? -1,
      b: nodes.get(source.nodes[1]) ?? -1,
      primary,
      secondary,
      load: source.kind === 'load' ? loadOf(source) : undefined,
      source,
    };
  });
  return {
    circuit,
    nodes,
    elements,
    byId: new Map(elements.map((element) => [element.id, element])),
    parameters,
    capacitors: elements.filter((element) => element.kind === 'capacitor').map((element) => element.index),
    kept: new Map(),
  };
}

/** The element's parameters as they are added: the defining one, then the other one that its kind has; −1: none. */
function parametersOf(
  source: Element,
  parameter: (element: Element, field: string, range: Toleranced | undefined) => number,
): [primary: number, secondary: number] {
  switch (source.kind) {
    case 'accumulator':
      return [parameter(source, 'voltage', source.voltage), parameter(source, 'resistance', source.resistance)];
    case 'machine':
      return [parameter(source, 'backEmf', source.backEmf), parameter(source, 'resistance', source.resistance)];
    case 'capacitor':
      return [parameter(source, 'capacitance', source.capacitance), parameter(source, 'esr', source.esr)];
    case 'contact': {
      const closed = parameter(source, 'resistance', source.resistance);
      const { openResistance } = source;
      return [closed, openResistance === undefined ? -1 : parameter(source, 'openResistance', openResistance)];
    }
    case 'load': {
      const load = loadOf(source);
      return [parameter(source, load, source[load]), -1];
    }
    case 'fuse':
    case 'connector':
    case 'disconnect':
    case 'resistor':
    case 'meter':
      return [parameter(source, 'resistance', source.resistance), -1];
  }
}

function loadOf({ resistance, current }: Load): 'resistance' | 'current' | 'power' {
  return resistance ? 'resistance' : current ? 'current' : 'power';
}

/** Every parameter at its nominal value. */
export function nominalValues(compiled: CompiledCircuit): Values {
  return compiled.parameters.map((parameter) => parameter.range.nominal);
}
