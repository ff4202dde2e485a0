import { agreed } from '../../transient/agreed.js';
import type { Direction, Directions } from '../../transient/bounds.js';
import type { Box } from '../../transient/box.js';
import {
  type CompiledCircuit,
  type CompiledElement,
  Mode,
  type Modes,
  nominalValues,
  type Values,
} from '../../transient/compiled-circuit.js';
import { CURRENT_LOAD_KNEE } from '../../transient/load-knee.js';
import { NetworkSigns } from '../../transient/network-signs.js';
import { StateSolution } from '../../transient/state-solution.js';
import { ByValues } from './by-values.js';
import { fallModes } from './fall-modes.js';
import { hasOneAccumulator } from './has-one-accumulator.js';
import { corner } from './heat-bounds.js';
import { openCircuitVoltage } from './open-circuit.js';
import type { RiseState } from './rise-state.js';

/** Ω given to an accumulator that states none, so that capacitors charge from it in finite time; the end of it is what counts. */
const LEAST_SOURCE_RESISTANCE = 1e-3;
/** From this share on a capacitor counts as standing at the full voltage: by an upper bound that is hardly too high, much is proved. */
const NEARLY_ALL = 0.99;
/** A share that a load makes larger by no more is not made larger by it. */
const SAME = 1e-9;
/** Below this share a capacitor counts as one that nothing charges; what rounding leaves is far below. */
const NOTHING = 1e-12;
/** The golden section: its multiples never fall into step, so that they make any equal values uneven. */
const UNEVEN = (Math.sqrt(5) - 1) / 2;

const NONE: readonly Shares[] = [];

/** Shares of the open-circuit voltage with their signs, by the capacitor's id. */
export type Shares = ReadonlyMap<string, number>;

/** A state that charges the capacitors. */
interface Charging {
  readonly modes: Modes;
  /** The same without the capacitors, where resistances alone tell what stands on each of them: no time passes in it. */
  readonly still: Modes | undefined;
  /** Loads of constant current at work: below its knee each is a resistance. */
  readonly currents: readonly CompiledElement[];
}

/**
 * The share of the open-circuit voltage that stands on each capacitor with the car switched on and its loads off: the largest of several
 * states, so that an order that never charges the link hides nothing of what can stand on it. A load across a part of a series bank lets
 * the rest stand higher: where one does, that is a start of its own. Loads of constant power are left out.
 */
export class ChargedShares {
  private readonly states: readonly Charging[];
  private readonly raising: readonly Charging[];
  private readonly known = new ByValues<Shares>();
  private readonly knownRaised = new ByValues<readonly Shares[]>();
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
    const values = nominalValues(compiled);
    this.states = states.map(({ openAfter }) => this.charging(fallModes(compiled, { open: [...openAfter], gone: [] })));
    const shares = this.solve(values, this.states);
    for (const [id, share] of shares) if (Math.abs(share) > NEARLY_ALL) this.settled.set(id, share > 0 ? 1 : -1);
    this.raising = this.raisingStates(shares);
    const none = [...shares.keys()].filter((id) => Math.abs(shares.get(id) ?? 0) <= NOTHING);
    // What a bridge in balance keeps at 0 is charged as soon as its values are uneven.
    const lopsided = none.length === 0 ? shares : this.solve(uneven(values), this.states);
    for (const id of none) if (Math.abs(lopsided.get(id) ?? 0) <= NOTHING) this.settled.set(id, 0);
    this.nominal = new Map([...shares, ...this.settled]);
    this.fixed = this.settled.size === shares.size && this.raising.length === 0;
  }

  /** @param values of the circuit's parameters; more may follow */
  at(values: Values): Shares {
    if (this.settled.size === this.nominal.size) return this.nominal;
    return this.known.get(values, (own) => new Map([...this.solve(own, this.states), ...this.settled]));
  }

  /** The further starts, each with loads at work that let some capacitor stand higher; mostly none. */
  raisedAt(values: Values): readonly Shares[] {
    if (this.raising.length === 0) return NONE;
    return this.knownRaised.get(values, (own) => this.raising.map((state) => this.solve(own, [state])));
  }

  /** The largest that a capacitor's share may be in the box. */
  most(id: string, box: Box): number {
    if (this.settled.get(id) === 1 || this.settled.get(id) === -1) return 1;
    const sizes = [...this.states, ...this.raising].map((state) => {
      const signs = [this.signsOf(id, state, box)];
      const values = corner(box, (index) => this.bySigns(index, signs), 'max');
      return values === undefined ? 1 : Math.abs(this.solve(values, [state]).get(id) ?? 1);
    });
    return Math.min(1, Math.max(...sizes));
  }

  /** Of the size of every share that hangs on the values. */
  direction(index: number, box: Box): Direction {
    if (this.fixed || this.compiled.parameters[index] === undefined) return 0;
    const ids = [...this.nominal.keys()];
    this.signs ??= [
      ...this.states.flatMap((state) =>
        ids.filter((id) => !this.settled.has(id)).map((id) => this.signsOf(id, state, box)),
      ),
      // With a load at work nothing is settled that is without it.
      ...this.raising.flatMap((state) => ids.map((id) => this.signsOf(id, state, box))),
    ];
    return this.bySigns(index, this.signs);
  }

  /** What all agree on. */
  private bySigns(index: number, all: readonly Directions[]): Direction {
    return all.reduce<Direction>((sum, signs) => agreed(sum, signs(index)), 0);
  }

  /** Of the size of one capacitor's share in one state. Beside a load of constant current nothing is told. */
  private signsOf(id: string, { modes, currents }: Charging, { nominal, uncertain }: Box): Directions {
    const { compiled } = this;
    const element = compiled.byId.get(id);
    const box = { nominal: this.feeding(nominal, false), uncertain };
    if (element === undefined || currents.length > 0) return () => undefined;
    const question = { compiled, box, modes, course: 'rise', pairs: [element], instant: 'end' } as const;
    const signs = NetworkSigns.of(question)?.steadyVoltage(element);
    return (index) => {
      if (compiled.parameters[index]?.field !== 'voltage') return signs?.(index);
      // One accumulator is a scale, which a share is free of; of several each charges what it feeds.
      return hasOneAccumulator(compiled) ? 0 : undefined;
    };
  }

  private solve(given: Values, states: readonly Charging[]): Shares {
    const { compiled, chain } = this;
    const total = openCircuitVoltage(chain, given);
    const shares = new Map<string, number>();
    for (const state of states) {
      const { still } = state;
      const solution = this.solutionOf(state, given);
      compiled.capacitors.forEach((index, position) => {
        const element = compiled.elements[index] as CompiledElement;
        const across = still ? solution.voltage(element.a, element.b) : solution.capacitorVoltage(position);
        const known = shares.get(element.id);
        const share = total > 0 && typeof across !== 'string' ? across.limit() / total : 0;
        if (known === undefined || Math.abs(share) > Math.abs(known)) shares.set(element.id, share);
      });
    }
    return shares;
  }

  private solutionOf({ modes, still, currents }: Charging, given: Values): StateSolution {
    const values = this.feeding(given, still !== undefined);
    const at = (standing: Modes): StateSolution =>
      new StateSolution(this.compiled, values, standing, { capacitorVoltages: this.compiled.capacitors.map(() => 0) });
    const standing = (still ?? modes).slice();
    let solution = at(standing);
    // One that would pull its own voltage below its knee is a resistance there, and leaves next to nothing.
    for (let left = currents; left.length > 0; ) {
      const bent = left.filter(({ a, b }) => {
        const voltage = solution.voltage(a, b);
        return typeof voltage === 'string' || !(voltage.limit() >= CURRENT_LOAD_KNEE);
      });
      if (bent.length === 0) break;
      for (const { index } of bent) standing[index] = Mode.closed;
      left = left.filter((each) => !bent.includes(each));
      solution = at(standing);
    }
    return solution;
  }

  private charging(modes: Modes, working: readonly CompiledElement[] = []): Charging {
    const { compiled } = this;
    const loaded = modes.slice();
    for (const { index, load } of working) loaded[index] = load === 'current' ? Mode.constant : Mode.closed;
    const still = loaded.slice();
    for (const index of compiled.capacitors) still[index] = Mode.absent;
    const values = this.feeding(nominalValues(compiled), true);
    const solution = new StateSolution(compiled, values, still, { capacitorVoltages: [] });
    const floats = compiled.capacitors.some((index) => {
      const { a, b } = compiled.elements[index] as CompiledElement;
      return modes[index] !== Mode.absent && typeof solution.voltage(a, b) === 'string';
    });
    const currents = working.filter(({ load }) => load === 'current');
    return { modes: loaded, still: floats ? undefined : still, currents };
  }

  /** The same states with each load at work, and with all of them, where that lets a capacitor stand higher. */
  private raisingStates(shares: Shares): Charging[] {
    const loads = this.compiled.elements.filter(({ load }) => load === 'resistance' || load === 'current');
    const sets = loads.length > 1 ? [...loads.map((load) => [load]), loads] : [loads];
    const open = [...shares.keys()].filter((id) => !this.settled.has(id));
    if (loads.length === 0 || open.length === 0) return [];
    // What its nominal values balance is raised as soon as they are uneven.
    const nominal = nominalValues(this.compiled);
    const lopsided = uneven(nominal);
    const cases = [
      { values: nominal, without: shares },
      { values: lopsided, without: this.solve(lopsided, this.states) },
    ];
    return this.states.flatMap(({ modes }) =>
      sets.flatMap((working) => {
        const state = this.charging(modes, working);
        const raises = cases.some(({ values, without }) => {
          const raised = this.solve(values, [state]);
          return open.some((id) => Math.abs(raised.get(id) ?? 0) > Math.abs(without.get(id) ?? 0) + SAME);
        });
        return raises ? [state] : [];
      }),
    );
  }

  /** The values with a resistance in every accumulator, so that none needs infinite current; one alone needs none where no capacitor is. */
  private feeding(given: Values, still: boolean): Values {
    if (still && hasOneAccumulator(this.compiled)) return given;
    const values = given.slice();
    for (const { kind, secondary } of this.compiled.elements)
      if (kind === 'accumulator') values[secondary] = Math.max(values[secondary] as number, LEAST_SOURCE_RESISTANCE);
    return values;
  }
}

function uneven(values: Values): Values {
  return values.map((value, index) => value * (1 + ((index * UNEVEN) % 1)));
}
