import { boundsOf, type Dependence, type Direction } from '../../transient/bounds.js';
import { highestOf } from '../../transient/box.js';
import {
  type CompiledCircuit,
  type CompiledElement,
  Mode,
  type Modes,
  type Values,
} from '../../transient/compiled-circuit.js';
import { fallDirections } from '../../transient/fall-directions.js';
import { feedsCapacitors } from '../../transient/feeds-capacitors.js';
import { type Lump, lump } from '../../transient/lump.js';
import { OneState } from '../../transient/one-state.js';
import { planOf } from '../../transient/plan-of.js';
import type { SeparationState } from '../facts.js';
import type { Figure } from '../figure.js';
import { ByValues } from './by-values.js';
import { FallRun, type Watched } from './fall-run.js';
import type { Directions, FallSetting } from './fall-setting.js';
import { figureOf } from './figure-of.js';
import { corner } from './heat-bounds.js';

/** Ratio by which cables and series resistances let a voltage differ from the capacitor's that it is. */
export const SAME_VOLTAGE = 1e-3;

/** What the figures of a fall in one separation state are made of: its runs, and what is proved of it. */
export class FallModel {
  private readonly runs = new ByValues<FallRun>();
  private known: Directions | undefined;
  private settledModes: Modes | undefined;

  constructor(
    readonly setting: FallSetting,
    readonly state: SeparationState,
    /** Elements that are taken out besides those that have left. */
    protected readonly absent: readonly string[] = [],
  ) {}

  /** A figure over the setting's ranges. */
  figure(evaluate: (values: Values) => number, dependence: Dependence): Figure {
    const { box, names } = this.setting;
    return figureOf(box, boundsOf(box, evaluate, dependence), names, dependence.direction);
  }

  /** The fall at one set of values. */
  run(values: Values): FallRun {
    return this.runs.get(values, (own) => this.make(own, this.setting.share, this.setting.closesLate(own, this.state)));
  }

  /** The fall with every discharge contact closed from the start. */
  protected atOnce(values: Values): FallRun {
    const late = this.setting.closesLate(values, this.state);
    return late.size === 0 ? this.run(values) : this.make(values, this.setting.share, new Map());
  }

  /** The fall at nominal values with a single capacitor charged: what discharges that one, and no other. */
  protected chargedAlone(capacitor: string): FallRun {
    const { box, share } = this.setting;
    const alone = new Map([...share].map(([id, ratio]) => [id, id === capacitor ? ratio : 0]));
    return this.make(box.nominal, alone, this.setting.closesLate(box.nominal, this.state));
  }

  private make(values: Values, share: ReadonlyMap<string, number>, late: ReadonlyMap<string, number>): FallRun {
    const { compiled } = this.setting;
    return new FallRun(compiled, values, this.state, this.setting.startVoltage(values), share, late, this.absent);
  }

  /** Of the state once every contact has come to rest. */
  private get modes(): Modes {
    this.settledModes ??= fallModes(this.setting.compiled, this.state, this.absent);
    return this.settledModes;
  }

  /** What the setting keeps of this state is kept under this name. */
  private get key(): string {
    return `${this.state.id} ${this.absent.join()}`;
  }

  // ---------------------------------------------------------------- voltages

  /** Whether nothing, whatever the values, stands between two nodes and a capacitor: then they share what is proved of it. */
  protected isCapacitor({ a, b }: { readonly a: number; readonly b: number }): boolean {
    const { compiled, box } = this.setting;
    const plan = planOf(compiled, this.modes, highestOf(box));
    const ends = [plan.merged[a], plan.merged[b]];
    return plan.capacitors.some(({ ma, mb }) => ma !== mb && ends.includes(ma) && ends.includes(mb));
  }

  /** Of a time counted from the opening of the shutdown circuit (`clocked`) or of the isolation relays. */
  timeDirection(index: number, clocked: boolean): Direction {
    const role = this.setting.releaseRole(index);
    if (role === 'discharges') return 1;
    // Later isolation delays all that is counted from shutdown; counted from itself it only shortens the wait for the discharge contact.
    if (role === 'isolates') return clocked ? 1 : -1;
    if (this.setting.isVoltage(index)) return this.voltageDirection(index);
    return this.direction(index);
  }

  /** Of whatever is in proportion to the start voltage. */
  private voltageDirection(index: number): Direction {
    if (this.undriven) return this.setting.voltageDirection(index);
    // What an accumulator feeds on with hangs on its own voltage too; a single one is a scale all the same.
    return this.setting.compiled.elements.filter(({ kind }) => kind === 'accumulator').length === 1 ? 1 : undefined;
  }

  private direction(index: number): Direction {
    this.known ??= this.setting.proof(`directions ${this.key}`, () => this.findDirections());
    return this.known(index);
  }

  private findDirections(): Directions {
    const { compiled, box, topology } = this.setting;
    const settled = fallDirections(compiled, box, this.modes);
    // Also while a discharge contact is still on its way, so also with it open.
    const open = [...this.state.open, ...topology.dischargeContacts];
    const before = fallDirections(compiled, box, fallModes(compiled, { ...this.state, open }, this.absent));
    return (parameter) => {
      const first = settled(parameter);
      const second = before(parameter);
      return first === undefined || second === undefined ? undefined : first !== 0 ? first : second;
    };
  }

  /** Where bounds are known anyway, of several capacitors: a voltage is likely to last as one capacitor's does. */
  likelyTime(index: number, clocked: boolean): Direction {
    return this.timeDirection(index, clocked) ?? (this.rough === undefined ? undefined : 1);
  }

  /** The time with several capacitors taken as one, as far off as that may be. */
  roughTime(place: Watched, level: number, clocked: boolean, end: 'min' | 'max'): number | undefined {
    const found = this.roughRun(place, clocked, end);
    if (found === undefined) return undefined;
    const { run, off, delay } = found;
    return run.timeToLimit(place, end === 'max' ? level - off : level + off) + (clocked ? delay : 0);
  }

  /** Likewise the voltage at an instant, s from the clock's start. */
  roughVoltage(place: Watched, seconds: number, clocked: boolean, end: 'min' | 'max'): number | undefined {
    const found = this.roughRun(place, clocked, end);
    if (found === undefined) return undefined;
    const { run, off, delay } = found;
    const volts = run.voltageAt(place, Math.max(0, seconds - (clocked ? delay : 0)));
    return end === 'max' ? volts + off : Math.max(0, volts - off);
  }

  /** The lumped fall at its proved corner, by how many V it may be off, and how late it begins in s. */
  private roughRun(place: Watched, clocked: boolean, end: 'min' | 'max') {
    const { rough, setting } = this;
    if (rough === undefined || !('capacitor' in place)) return undefined;
    const box = rough.without(setting.box);
    const table = rough.state.timeConstant();
    const directions: Directions = (index) => {
      if (setting.releaseRole(index) !== undefined || setting.isVoltage(index))
        return this.timeDirection(index, clocked);
      return table(index);
    };
    const values = corner(box, directions, end);
    const off = this.offBy(rough);
    if (values === undefined || off === undefined) return undefined;
    return { run: this.run(values), off, delay: setting.isolationDelay(values) };
  }

  /** V by which no voltage is off where several capacitors are taken as one. */
  private offBy(rough: Lump): number | undefined {
    const { setting } = this;
    const directions: Directions = (index) => (setting.isVoltage(index) ? setting.voltageDirection(index) : -1);
    const fastest = corner(rough.without(setting.box), directions, 'max');
    return fastest && 2 * rough.resistanceIn(setting.box) * this.atOnce(fastest).dischargeCurrent();
  }

  /** Whether several capacitors come so near to being one that a voltage lasts as one's does. */
  protected get nearlyOne(): boolean {
    const off = this.rough && this.offBy(this.rough);
    return off !== undefined && off <= SAME_VOLTAGE * this.setting.startVoltage(this.setting.box.nominal);
  }

  /** Where bounds are known anyway. Of several capacitors: more is stored, and the resistor takes more of it the smaller it is. */
  protected likelyHeat(element: CompiledElement, index: number): Direction {
    if (this.setting.releaseRole(index) !== undefined) return this.likelyLater(index);
    if (this.rough === undefined) return undefined;
    if (index === element.primary) return -1;
    return this.setting.compiled.parameters[index]?.field === 'capacitance' ? 1 : 0;
  }

  /** A discharge contact that closes later is likely to leave its resistor less to take. */
  private likelyLater(index: number): Direction {
    const role = this.setting.releaseRole(index);
    return role === undefined ? undefined : role === 'discharges' ? -1 : 1;
  }

  /** Of the heat in a resistor, or of its power with the start voltage held. */
  protected heatDirection(element: CompiledElement, held: boolean): Directions {
    const power = this.oneState?.firstPower(element, this.setting.box);
    const shown = this.oneState?.timeConstant();
    return (index) => {
      // How late the discharge contact closes moves the heat by what other paths take in the meantime.
      if (this.setting.releaseRole(index) !== undefined) return held ? 0 : undefined;
      if (this.setting.isVoltage(index)) return this.voltageDirection(index);
      if (held) return power?.(index);
      return shown?.(index) === 0 ? 0 : undefined;
    };
  }

  /**
   * J that a resistor may take at most. With one capacitor ½·(τ/R)·y², y the voltage across it at the start, each at its own
   * proved corner and no time lost to other paths; else all that the capacitors hold.
   */
  protected mostHeat(element: CompiledElement, end: 'min' | 'max'): number | undefined {
    if (end === 'min') return undefined;
    const { oneState, setting } = this;
    const { box } = setting;
    if (!this.undriven) return undefined;
    if (oneState === undefined) return this.mostStored();
    const atOnce =
      (directions: Directions): Directions =>
      (index) => {
        if (setting.releaseRole(index) !== undefined) return this.likelyLater(index);
        return setting.isVoltage(index) ? setting.voltageDirection(index) : directions(index);
      };
    const own =
      (directions: Directions, itself: Direction): Directions =>
      (index) =>
        index === element.primary ? itself : directions(index);
    const slow = corner(box, atOnce(own(oneState.timeConstant(), -1)), 'max');
    const first = corner(box, atOnce(own(oneState.firstCurrent(element), 1)), 'max');
    if (slow === undefined || first === undefined) return undefined;
    const share = this.run(slow).timeConstant() / (slow[element.primary] as number);
    const voltage = this.run(first).startCurrent(element.index) * (first[element.primary] as number);
    return 0.5 * share * voltage * voltage;
  }

  /** ½·C·U² of all capacitors at their most. */
  private mostStored(): number {
    const { compiled, share } = this.setting;
    const values = this.mostOf(() => 1);
    const volts = this.setting.startVoltage(values);
    return compiled.capacitors.reduce((sum, index) => {
      const { id, primary } = compiled.elements[index] as CompiledElement;
      return sum + 0.5 * (values[primary] as number) * (volts * (share.get(id) ?? 0)) ** 2;
    }, 0);
  }

  /** W at most: a fall from one voltage puts no more than that across anything (maximum principle, capacitors on one common node). */
  protected mostPower(element: CompiledElement, end: 'min' | 'max'): number | undefined {
    const { setting } = this;
    if (end === 'min' || this.rough === undefined) return undefined;
    const values = this.mostOf((index) => (index === element.primary ? -1 : 1));
    return setting.startVoltage(values) ** 2 / (values[element.primary] as number);
  }

  /** The corner at which the start voltage is highest, and the others where they are told. */
  private mostOf(directions: Directions): Values {
    const { setting } = this;
    const all = (index: number): Direction =>
      setting.isVoltage(index) ? setting.voltageDirection(index) : directions(index);
    return corner(setting.box, all, 'max') ?? setting.box.nominal;
  }

  /** Whether nothing feeds the capacitors any more, so that all of a fall is in proportion to the voltage that it starts from. */
  private get undriven(): boolean {
    const { compiled, box } = this.setting;
    return this.setting.proof(
      `undriven ${this.key}`,
      () => this.decays || !feedsCapacitors(compiled, highestOf(box), this.modes),
    );
  }

  /** Whether no voltage ever grows: all capacitors fall as one, or from one voltage. */
  protected get decays(): boolean {
    return this.oneState !== undefined || this.rough !== undefined;
  }

  private get oneState(): OneState | undefined {
    const { compiled, box } = this.setting;
    return this.setting.proof(`state ${this.key}`, () =>
      OneState.of({ compiled, box, modes: this.modes, course: 'fall', pairs: [] }),
    );
  }

  /** Several capacitors taken as one; undefined where they are one, or do not all fall from one voltage. */
  private get rough(): Lump | undefined {
    const { compiled, box, share } = this.setting;
    return this.setting.proof(`lump ${this.key}`, () => {
      if (this.oneState !== undefined || [...share.values()].some((each) => each !== 1)) return undefined;
      // While a discharge contact is on its way less flows: what holds with it closed holds then too.
      return lump(compiled, box, this.modes, 'fall', undefined);
    });
  }
}

function fallModes(compiled: CompiledCircuit, state: SeparationState, absent: readonly string[]): Modes {
  const open = new Set(state.open);
  const gone = new Set([...state.gone, ...absent]);
  return Uint8Array.from(compiled.elements, ({ id, source }) => {
    if (gone.has(id)) return Mode.absent;
    if (source.kind === 'load' || source.kind === 'machine' || open.has(id)) return Mode.open;
    return Mode.closed;
  });
}
