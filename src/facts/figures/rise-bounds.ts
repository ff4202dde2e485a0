import { type CompiledElement, Mode } from '../../transient/compiled-circuit.js';
import { type Lump, mostFedIn } from '../../transient/lump.js';
import type { OneState } from '../../transient/one-state.js';
import { type ClosureBound, closureBound } from './closure-bound.js';
import { corner, heatBound, type HeatQuestion, lastingBound } from './heat-bounds.js';
import { openCircuitVoltage } from './open-circuit.js';
import { RiseModel } from './rise-model.js';
import type { RiseRun } from './rise-run.js';
import { hottestPossible, type PulseRow } from './temperature-bounds.js';
import type { Thermal } from './thermal-peak.js';
import { WakingRise } from './waking-rise.js';

/** What is known of one rise at most; undefined: nothing. */
interface Most {
  /** J in the part. */
  readonly energy: number | undefined;
  /** W in it; Infinity: nothing bounds it. */
  readonly power: number;
  /** s that the rise lasts. */
  readonly longest: number | undefined;
}

/** What the figures of a rise do not lie beyond, where no corner is proved to be their extreme. */
export class RiseBounds extends RiseModel {
  /** J that the part takes at most (least) up to a ratio; undefined: nothing bounds it. */
  protected heatBound(part: CompiledElement, ratio: number | undefined, end: 'min' | 'max'): number | undefined {
    const { signs } = this;
    // Left on for ever the small voltages that lumping neglects add up without end.
    if (signs?.one === undefined && ratio === undefined) return undefined;
    const question = this.heatQuestion(part, ratio, signs?.one);
    return question && heatBound(question, end);
  }

  /** °C that the part does not exceed in a row of rises; undefined: nothing bounds it. */
  protected hottestPossible(part: CompiledElement, thermal: Thermal, most: Most, row: PulseRow): number | undefined {
    const { energy = Infinity, power, longest = Infinity } = most;
    // A load that draws the same all the time is a leak, too, and lets the capacitors settle no later than without it.
    const lasting = this.heatQuestion(part, undefined, this.drawsPower ? this.signs?.one : this.signs?.rising);
    const bounds = [
      { energy: Math.min(energy, longest === Infinity ? Infinity : power * longest), power, steady: 0 },
      ...[lasting && lastingBound(lasting)].flatMap((bound) => (bound === undefined ? [] : [{ ...bound, power }])),
    ];
    const hottest = Math.min(...bounds.map((bound) => hottestPossible(thermal, bound, row)));
    return hottest === Infinity ? undefined : hottest;
  }

  /** @param exact the state that is proved of the circuit as it is; else capacitors are taken as one */
  private heatQuestion(
    part: CompiledElement,
    ratio: number | undefined,
    exact: OneState | undefined,
  ): HeatQuestion | undefined {
    const { setting, signs } = this;
    const lumped = exact === undefined ? signs?.lumped : undefined;
    const state = exact ?? lumped?.state;
    if (setting === undefined || state === undefined || !this.oneVoltage) return undefined;
    if (lumped?.neglects(part.primary) === true) return undefined;
    const off = lumped === undefined ? 0 : this.offBy(lumped);
    return {
      box: lumped?.without(this.box) ?? this.box,
      state,
      part,
      link: setting.link,
      read: (values) => this.run(values).heatReading(part.index),
      isSummed: (index) => this.isSummed(index),
      ratio,
      off,
      offRatio: off / this.highestOfPack(),
    };
  }

  /** What the link ends at, at least; undefined: nothing bounds it. */
  protected steadyAtLeast(end: 'min' | 'max'): number | undefined {
    return end === 'min' ? this.wakingRise(this.setLevel)?.ratioAtLeast() : undefined;
  }

  private wakingRise(ratio: number): WakingRise | undefined {
    const { setting, signs } = this;
    const known = this.oneVoltage ? signs?.wakingRise(ratio, this.box) : undefined;
    if (known === undefined || setting === undefined || signs === undefined) return undefined;
    return WakingRise.of({
      compiled: this.compiled,
      box: this.box,
      modes: signs.modes,
      link: setting.link,
      ...known,
      openCircuit: (values) => openCircuitVoltage(setting.chain, values),
      isSummed: (index) => this.isSummed(index),
    });
  }

  private get drawsPower(): boolean {
    const { setting, signs } = this;
    return this.compiled.elements.some(
      ({ load, index }) => load === 'power' && setting !== undefined && signs?.modes[index] === Mode.closed,
    );
  }

  /** The time with several capacitors taken as one, as far off as that may be; or with loads that wake, each at its worst. */
  protected roughTime(ratio: number, end: 'min' | 'max'): number | undefined {
    const { signs, setting } = this;
    if (end === 'max') {
      const waking = this.wakingRise(ratio);
      if (waking !== undefined) return waking.timeAtMost(ratio);
    }
    const lumped = signs?.lumped;
    if (lumped === undefined || setting === undefined || !this.oneVoltage) return undefined;
    const off = this.offBy(lumped) / this.highestOfPack();
    const level = end === 'max' ? ratio + off : ratio - off;
    const directions = this.ratio(lumped.state.timeToReach(setting.link, level, this.box), -1);
    const values = corner(lumped.without(this.box), directions, end);
    return values && this.run(values).timeTo(level);
  }

  /**
   * The part's largest current or power with several capacitors taken as one, as far off as that may be: its own voltage is off by
   * no more than any other, and where no voltage falls the lumped one is largest at the start.
   */
  protected roughFirst(part: CompiledElement, kind: 'current' | 'power', end: 'min' | 'max'): number | undefined {
    const { lumped } = this.signs ?? {};
    if (lumped === undefined || lumped.neglects(part.primary) || !this.oneVoltage) return undefined;
    const box = lumped.without(this.box);
    const values = corner(
      box,
      kind === 'current' ? lumped.state.firstCurrent(part) : lumped.state.firstPower(part, box),
      end,
    );
    if (values === undefined) return undefined;
    const first = this.run(values).heatReading(part.index).first;
    const ohms = values[part.primary] as number;
    const least = box.uncertain.find(({ index }) => index === part.primary)?.low ?? ohms;
    // As a current, or as the root of a power.
    const [size, off] =
      kind === 'current'
        ? [first, this.offBy(lumped) / least]
        : [first * Math.sqrt(ohms), this.offBy(lumped) / Math.sqrt(least)];
    const moved = end === 'max' ? size + off : Math.max(0, size - off);
    return kind === 'current' ? moved : moved ** 2;
  }

  /** V by which no voltage is off where capacitors are taken as one. */
  private offBy(lumped: Lump): number {
    const fedIn = mostFedIn(this.compiled, lumped.without(this.box), this.signs?.modes ?? new Uint8Array());
    return 2 * lumped.resistanceIn(this.box) * fedIn;
  }

  /** V between the outermost poles at most. */
  private highestOfPack(): number {
    const values = this.box.nominal.slice();
    for (const { index, high } of this.box.uncertain) if (this.isSummed(index)) values[index] = high;
    return this.setting === undefined ? 0 : openCircuitVoltage(this.setting.chain, values);
  }

  /** s, where the link shows the slowest mode of all; at least nothing is told, since it may hardly show it elsewhere. */
  protected slowestPossible(end: 'min' | 'max'): number | undefined {
    const directions = end === 'max' ? this.signs?.slowestMode : undefined;
    const values = directions && corner(this.box, directions, end);
    const shows = (run: RiseRun): boolean => run.timeConstant() === run.slowestTimeConstant();
    // What capacitors to the chassis do among themselves takes far longer and is not the link's.
    if (values === undefined || !shows(this.run(this.box.nominal)) || !shows(this.run(values))) return undefined;
    return this.run(values).slowestTimeConstant();
  }

  /** What is proved of the current at the closing of the last relays; undefined: nothing. */
  protected closure(level: number, relays: readonly number[]): ClosureBound | undefined {
    const { setting, signs } = this;
    if (setting === undefined || signs?.oneVoltageAfter !== true) return undefined;
    return closureBound({
      compiled: this.compiled,
      box: this.box,
      setting,
      signs,
      level,
      relays,
      isSummed: (index) => this.isSummed(index),
      run: (values) => this.run(values),
    });
  }
}
