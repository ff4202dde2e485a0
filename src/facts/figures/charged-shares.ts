import { agreed } from '../../transient/agreed.js';
import type { Direction, Directions } from '../../transient/bounds.js';
import type { Box } from '../../transient/box.js';
import { type CompiledCircuit, type Modes, nominalValues, type Values } from '../../transient/compiled-circuit.js';
import { NetworkSigns } from '../../transient/network-signs.js';
import { StateSolution } from '../../transient/state-solution.js';
import { ByValues } from './by-values.js';
import { fallModes } from './fall-modes.js';
import { hasOneAccumulator } from './has-one-accumulator.js';
import { openCircuitVoltage } from './open-circuit.js';
import type { RiseState } from './rise-state.js';

/** Ω given to an accumulator that states none, so that capacitors charge from it in finite time; the end of it is what counts. */
const LEAST_SOURCE_RESISTANCE = 1e-3;
/** From this share on a capacitor counts as standing at the full voltage: an upper bound for what a load hides. */
const NEARLY_ALL = 0.9;
/** Below this share a capacitor counts as one that nothing charges; what rounding leaves is far below. */
const NOTHING = 1e-12;
/** The golden section: its multiples never fall into step, so that they make any equal values uneven. */
const UNEVEN = (Math.sqrt(5) - 1) / 2;

/** Shares of the open-circuit voltage with their signs, by the capacitor's id. */
export type Shares = ReadonlyMap<string, number>;

/**
 * The share of the open-circuit voltage that stands on each capacitor with the car switched on: the largest of several states, so
 * that an order that never charges the link hides nothing of what can stand on it.
 */
export class ChargedShares {
  private readonly modes: readonly Modes[];
  private readonly known = new ByValues<Shares>();
  /** Those that are taken for the same whatever the values. */
  private readonly settled = new Map<string, -1 | 0 | 1>();
  private readonly nominal: Shares;
  private signs: readonly Directions[] | undefined;
  /** True where no share hangs on the values. */
  readonly fixed: boolean;

  constructor(
    private readonly compiled: CompiledCircuit,
    states: readonly RiseState[],
    private readonly chain: readonly { readonly index: number; readonly sign: 1 | -1 }[],
  ) {
    this.modes = states.map(({ openAfter }) => fallModes(compiled, { open: [...openAfter], gone: [] }));
    const values = nominalValues(compiled);
    const shares = this.solve(values);
    for (const [id, share] of shares) if (Math.abs(share) > NEARLY_ALL) this.settled.set(id, share > 0 ? 1 : -1);
    const none = [...shares.keys()].filter((id) => Math.abs(shares.get(id) ?? 0) <= NOTHING);
    // What a bridge in balance keeps at 0 is charged as soon as its values are uneven.
    const uneven =
      none.length === 0 ? shares : this.solve(values.map((value, index) => value * (1 + ((index * UNEVEN) % 1))));
    for (const id of none) if (Math.abs(uneven.get(id) ?? 0) <= NOTHING) this.settled.set(id, 0);
    this.nominal = new Map([...shares, ...this.settled]);
    this.fixed = this.settled.size === shares.size;
  }

  /** @param values of the circuit's parameters; more may follow */
  at(values: Values): Shares {
    return this.fixed ? this.nominal : this.known.get(values, (own) => new Map([...this.solve(own), ...this.settled]));
  }

  /** The largest that a capacitor's share may be, whatever the values. */
  most(id: string): number {
    return Math.abs(this.settled.get(id) ?? 1);
  }

  /** Of the size of every share that hangs on the values. */
  direction(index: number, box: Box): Direction {
    const parameter = this.compiled.parameters[index];
    if (this.fixed || parameter === undefined) return 0;
    // One accumulator is a scale, which a share is free of; of several each charges what it feeds.
    if (parameter.field === 'voltage') return hasOneAccumulator(this.compiled) ? 0 : undefined;
    this.signs ??= this.findSigns(box);
    return this.signs.reduce<Direction>((all, signs) => agreed(all, signs(index)), 0);
  }

  private findSigns({ nominal, uncertain }: Box): Directions[] {
    const { compiled } = this;
    const box = { nominal: this.feeding(nominal), uncertain };
    return this.modes.flatMap((modes) =>
      compiled.capacitors.flatMap((capacitor) => {
        const element = compiled.elements[capacitor];
        if (element === undefined || this.settled.has(element.id)) return [];
        const question = { compiled, box, modes, course: 'rise', pairs: [element], instant: 'end' } as const;
        return [NetworkSigns.of(question)?.steadyVoltage(element) ?? (() => undefined)];
      }),
    );
  }

  private solve(given: Values): Shares {
    const { compiled, chain } = this;
    const values = this.feeding(given);
    const total = openCircuitVoltage(chain, values);
    const shares = new Map<string, number>();
    for (const modes of this.modes) {
      const solution = new StateSolution(compiled, values, modes, {
        capacitorVoltages: compiled.capacitors.map(() => 0),
      });
      compiled.capacitors.forEach((index, position) => {
        const id = compiled.elements[index]?.id ?? '';
        const share = total > 0 ? solution.capacitorVoltage(position).limit() / total : 0;
        if (Math.abs(share) > Math.abs(shares.get(id) ?? 0) || !shares.has(id)) shares.set(id, share);
      });
    }
    return shares;
  }

  /** The values with a resistance in every accumulator, so that none needs infinite current. */
  private feeding(given: Values): Values {
    const values = given.slice();
    for (const { kind, secondary } of this.compiled.elements)
      if (kind === 'accumulator') values[secondary] = Math.max(values[secondary] as number, LEAST_SOURCE_RESISTANCE);
    return values;
  }
}
