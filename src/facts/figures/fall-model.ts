import { agreed } from '../../transient/agreed.js';
import { boundsOf, type Dependence, type Direction, type Directions } from '../../transient/bounds.js';
import { highestOf } from '../../transient/box.js';
import type { Modes, Values } from '../../transient/compiled-circuit.js';
import { fallDirections } from '../../transient/fall-directions.js';
import { feedsCapacitors } from '../../transient/feeds-capacitors.js';
import { type Lump, lump } from '../../transient/lump.js';
import { OneState } from '../../transient/one-state.js';
import { planOf } from '../../transient/plan-of.js';
import { withoutSources } from '../../transient/without-sources.js';
import type { SeparationState } from '../facts.js';
import type { Figure } from '../figure.js';
import { ByValues } from './by-values.js';
import type { Shares } from './charged-shares.js';
import { fallModes } from './fall-modes.js';
import { FallRun, type Watched } from './fall-run.js';
import type { FallSetting } from './fall-setting.js';
import { figureOf } from './figure-of.js';
import { hasOneAccumulator } from './has-one-accumulator.js';
import { corner } from './heat-bounds.js';

/** Ratio by which cables and series resistances let a voltage differ from the capacitor's that it is. */
export const SAME_VOLTAGE = 1e-3;

/** What the figures of a fall in one separation state are made of: its runs, and what is proved of it. */
export class FallModel {
  private readonly runs = new ByValues<FallRun>();
  private readonly raisedRuns = new ByValues<readonly FallRun[]>();
  private known: Directions | undefined;

  constructor(
    readonly setting: FallSetting,
    readonly state: SeparationState,
    /** Elements that are taken out besides those that have left. */
    protected readonly absent: readonly string[] = [],
  ) {}

  /** A figure over the setting's ranges. */
  figure(evaluate: (values: Values) => number, dependence: Dependence): Figure {
    const { box, names } = this.setting;
    return figureOf(box, boundsOf(box, evaluate, dependence), names, dependence);
  }

  /** The fall at one set of values. */
  run(values: Values): FallRun {
    return this.runs.get(values, (own) => this.make(own, this.setting.closesLate(own, this.state)));
  }

  /** The most of what is read of a fall over all that it may start from: with the loads off before it and, where that lets a capacitor stand higher, at work. */
  mostOver(values: Values, read: (run: FallRun) => number): number {
    const raised = this.raisedRuns.get(values, (own) => this.raised(own, this.setting.closesLate(own, this.state)));
    return Math.max(read(this.run(values)), ...raised.map(read));
  }

  /** The same with every discharge contact closed from the start. */
  protected mostAtOnce(values: Values, read: (run: FallRun) => number): number {
    return Math.max(read(this.atOnce(values)), ...this.raised(values, new Map()).map(read));
  }

  private raised(values: Values, late: ReadonlyMap<string, number>): readonly FallRun[] {
    return this.setting.shares.raisedAt(values).map((shares) => this.make(values, late, { shares }));
  }

  /** The fall with every discharge contact closed from the start. */
  protected atOnce(values: Values): FallRun {
    const late = this.setting.closesLate(values, this.state);
    return late.size === 0 ? this.run(values) : this.make(values, new Map());
  }

  /** The fall with every contact that may close late left open. */
  protected neverClosed(values: Values): FallRun {
    const { compiled, shares } = this.setting;
    const open = this.modesWith(this.lateContacts);
    return new FallRun(compiled, values, open, this.setting.startVoltage(values), shares.at(values), new Map());
  }

  /** The fall at nominal values with a single capacitor charged and no accumulator: what discharges that one, and nothing else. */
  protected chargedAlone(capacitor: string): FallRun {
    const { compiled, box, shares } = this.setting;
    const alone = new Map([...shares.at(box.nominal)].map(([id, ratio]) => [id, id === capacitor ? ratio : 0]));
    const still = withoutSources(compiled, box.nominal);
    const startVoltage = this.setting.startVoltage(box.nominal);
    return this.make(still, this.setting.closesLate(still, this.state), { startVoltage, shares: alone });
  }

  /** The fall at one set of values from another voltage, V, than the accumulators'. */
  runFrom(startVoltage: number, values: Values): FallRun {
    return this.make(values, this.setting.closesLate(values, this.state), { startVoltage });
  }

  private make(
    values: Values,
    late: ReadonlyMap<string, number>,
    {
      startVoltage = this.setting.startVoltage(values),
      shares = this.setting.shares.at(values),
    }: { readonly startVoltage?: number; readonly shares?: Shares } = {},
  ): FallRun {
    return new FallRun(this.setting.compiled, values, this.modesWith([...late.keys()]), startVoltage, shares, late);
  }

  /** How every element stands with these contacts open besides those of the state. */
  private modesWith(open: readonly string[]): Modes {
    const { state, setting, absent } = this;
    return setting.proof(`modes ${this.key} ${open.join()}`, () =>
      fallModes(setting.compiled, { open: [...state.open, ...open], gone: [...state.gone, ...absent] }),
    );
  }

  /** Of the state once every contact has come to rest. */
  private get modes(): Modes {
    return this.modesWith([]);
  }

  /** Contacts of this state that may still be on their way when the isolation relays have opened, by id. */
  protected get lateContacts(): readonly string[] {
    const { open, gone } = this.state;
    return this.setting.releases
      .filter(({ role, contact }) => role === 'discharges' && !open.includes(contact) && !gone.includes(contact))
      .map(({ contact }) => contact);
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
  protected voltageDirection(index: number): Direction {
    if (this.undriven) return agreed(this.setting.voltageDirection(index), this.setting.startDirection(index));
    // What an accumulator feeds on with hangs on its own voltage too; a single one is a scale all the same.
    return hasOneAccumulator(this.setting.compiled) ? 1 : undefined;
  }

  private direction(index: number): Direction {
    this.known ??= this.setting.proof(`directions ${this.key}`, () => this.findDirections());
    return agreed(this.known(index), this.setting.startDirection(index));
  }

  private findDirections(): Directions {
    const { compiled, box } = this.setting;
    const settled = fallDirections(compiled, box, this.modes);
    const before = this.beforeClosing;
    return (parameter) => {
      const first = settled(parameter);
      const second = before(parameter);
      return first === undefined || second === undefined ? undefined : first !== 0 ? first : second;
    };
  }

  /** How long voltages last while the late contacts are still on their way, and open. */
  protected get beforeClosing(): Directions {
    const { compiled, box } = this.setting;
    return this.setting.proof(`before ${this.key}`, () =>
      fallDirections(compiled, box, this.modesWith(this.lateContacts)),
    );
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

  /** Whether nothing feeds the capacitors any more, so that all of a fall is in proportion to the voltage that it starts from. */
  protected get undriven(): boolean {
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

  protected get oneState(): OneState | undefined {
    return this.stateOf(this.modes, `state ${this.key}`);
  }

  /** The same while the late contacts are open. */
  protected get stateBefore(): OneState | undefined {
    return this.stateOf(this.modesWith(this.lateContacts), `state before ${this.key}`);
  }

  private stateOf(modes: Modes, key: string): OneState | undefined {
    const { compiled, box } = this.setting;
    return this.setting.proof(key, () => OneState.of({ compiled, box, modes, course: 'fall', pairs: [] }));
  }

  /** Several capacitors taken as one; undefined where they are one, or do not all fall from one voltage. */
  protected get rough(): Lump | undefined {
    const { compiled, box, shares } = this.setting;
    return this.setting.proof(`lump ${this.key}`, () => {
      if (this.oneState !== undefined || [...shares.at(box.nominal).values()].some((each) => each !== 1))
        return undefined;
      // While a discharge contact is on its way less flows: what holds with it closed holds then too.
      return lump(compiled, box, this.modes, 'fall', undefined);
    });
  }
}
