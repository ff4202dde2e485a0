import type { Circuit } from './wire.js';

/** What kinds of cars there are; the generator builds each from these alone. */
export interface Arrangement {
  readonly name: string;
  /** V of the full accumulator, all containers together. */
  readonly volts: number;
  readonly containers: 'one' | 'series' | 'parallel';
  /** The pole whose isolation relay the pre-charge branch bridges. */
  readonly pole: 'positive' | 'negative';
  /** Where the pre-charge resistor sits; the relay is always inside and always first. */
  readonly resistor: 'container' | 'vehicle';
  readonly inverters: ReadonlyArray<{ readonly farads: number; readonly cable?: number }>;
  readonly discharge: 'relay' | 'permanent';
  readonly insulation: boolean;
  readonly esr: boolean;
  /** The pole in which the high-voltage disconnect stands. */
  readonly disconnect: 'positive' | 'negative';
  readonly plugs: boolean;
  readonly stated: boolean;
  readonly bleed?: boolean;
  readonly converter?: boolean;
  /** Of two containers the one whose name comes second is the upper, or the one that charges. */
  readonly exchanged?: boolean;
}

/** A sound car, fully stated, with the names and values that a mistake needs. */
export interface Car extends Arrangement {
  readonly circuit: Circuit;
  readonly relays: readonly string[];
  /** Isolation relays that close last; the first is the one that the pre-charge branch bridges. */
  readonly last: readonly string[];
  /** An isolation relay in the other pole, and the node of its container's cells and of its vehicle side. */
  readonly first: { readonly id: string; readonly cell: string; readonly car: string };
  /** Where the pre-charge branch begins (cells' side) and ends. */
  readonly branch: { readonly from: string; readonly to: string };
  /** The vehicle-side terminals of the relays, ahead of plugs, and the nodes behind the plugs, ahead of the disconnect. */
  readonly terminals: readonly [string, string];
  readonly ahead: readonly [string, string];
  readonly fuses: readonly string[];
  /** The cells of the container that `containerIndicator` speaks of, behind its fuse. */
  readonly cells: readonly [string, string];
  readonly ohms: { readonly precharge: number; readonly discharge: number; readonly load: number };
  readonly farads: number;
}
