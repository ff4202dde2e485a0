import type { Element, ResolvedCircuit, Toleranced } from './model.js';

/**
 * Ω of an element between its nodes, or undefined where it does not conduct. 0 joins the nodes.
 */
export type Conducts = (element: Element) => number | undefined;

/** Which of the elements that can move are open. Every other one is closed. */
export interface SwitchState {
  readonly open: Iterable<string>;
}

export interface ConductsOptions {
  /** Which end of each range; default `nominal`. */
  readonly at?: 'min' | 'nominal' | 'max';
  /** True: accumulators conduct by their internal resistance, 0 where not stated. Default false. */
  readonly accumulators?: boolean;
  /** True: loads described by a resistance conduct. Default false. */
  readonly loads?: boolean;
  /** False: meters do not conduct. Default true. */
  readonly meters?: boolean;
  /** False: fuses do not conduct, as if taken out. Default true. */
  readonly fuses?: boolean;
  /** True: an open contact conducts by its `openResistance` where stated. Default false. */
  readonly leakage?: boolean;
  /** Elements that are not there. */
  readonly gone?: Iterable<string>;
}

/**
 * The usual answer to 'does it conduct?' in a switch state, for questions of direct current: capacitors and machines never
 * do, an open contact, connector or disconnect does not, a resistance not stated counts as 0.
 */
export function conductsAt(state: SwitchState, options: ConductsOptions = {}): Conducts {
  const { at = 'nominal', accumulators = false, loads = false, meters = true, fuses = true, leakage = false } = options;
  const open = new Set(state.open);
  const gone = new Set(options.gone ?? []);
  const ohms = (value: Toleranced | undefined): number => value?.[at] ?? 0;
  return (element) => {
    if (gone.has(element.id)) return undefined;
    switch (element.kind) {
      case 'accumulator':
        return accumulators ? ohms(element.resistance) : undefined;
      case 'fuse':
        return fuses ? ohms(element.resistance) : undefined;
      case 'contact':
        if (!open.has(element.id)) return ohms(element.resistance);
        return leakage ? element.openResistance?.[at] : undefined;
      case 'connector':
      case 'disconnect':
        return open.has(element.id) ? undefined : ohms(element.resistance);
      case 'resistor':
        return ohms(element.resistance);
      case 'meter':
        return meters ? ohms(element.resistance) : undefined;
      case 'load':
        return loads ? element.resistance?.[at] : undefined;
      case 'capacitor':
      case 'machine':
        return undefined;
    }
  };
}

/** The switch state with nothing energised: contacts at rest, connectors and disconnects closed. */
export function restState(circuit: ResolvedCircuit): SwitchState {
  const resting = circuit.elements.filter((element) => element.kind === 'contact' && element.rest === 'open');
  return { open: resting.map((element) => element.id) };
}
