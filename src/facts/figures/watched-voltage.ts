import { boundsOf, type Dependence, type Direction } from '../../transient/bounds.js';
import type { Values } from '../../transient/compiled-circuit.js';
import type { FallVoltage, SingleMove } from '../facts.js';
import type { Figure, TimeFigure } from '../figure.js';
import type { FallRun, Watched } from './fall-run.js';
import type { FallSetting } from './fall-setting.js';
import { timeFigureOf } from './figure-of.js';
import { singleMoves } from './single-moves.js';
import type { WatchedPlace } from './watched-places.js';

/** The fall that a voltage is watched in. */
export interface WatchedFall {
  readonly setting: FallSetting;
  readonly mostOver: (values: Values, read: (run: FallRun) => number) => number;
  readonly figure: (evaluate: (values: Values) => number, dependence: Dependence) => Figure;
  readonly roughTime: (place: Watched, level: number, clocked: boolean, end: 'min' | 'max') => number | undefined;
  readonly roughVoltage: (place: Watched, seconds: number, clocked: boolean, end: 'min' | 'max') => number | undefined;
  readonly timeDirection: (index: number, clocked: boolean) => Direction;
  readonly likelyTime: (index: number, clocked: boolean) => Direction;
}

/** One voltage in one fall, its figures computed when they are first read. */
export class WatchedVoltage implements FallVoltage {
  readonly id: string;
  readonly kind: FallVoltage['kind'];
  readonly nodes: readonly [string, string];
  private readonly times = new Map<boolean, TimeFigure>();
  private atLimit: Figure | undefined;

  constructor(
    private readonly fall: WatchedFall,
    private readonly watched: WatchedPlace,
    readonly path: readonly string[],
  ) {
    this.id = watched.id;
    this.kind = watched.kind;
    this.nodes = watched.nodes;
  }

  get timeToLimit(): TimeFigure {
    return this.time(this.fromShutdown);
  }

  get timeToLimitOtherClock(): TimeFigure {
    return this.time(!this.fromShutdown);
  }

  timeToLimitMoves(): readonly SingleMove<number>[] {
    const { box, names } = this.fall.setting;
    return singleMoves(box, names, (values) => this.seconds(values, this.fromShutdown));
  }

  get voltageAtLimit(): Figure {
    const { setting } = this.fall;
    this.atLimit ??= this.fall.figure(
      (values) => {
        const delay = this.fromShutdown ? setting.isolationDelay(values) : 0;
        const seconds = Math.max(0, setting.conditions.dischargeTime - delay);
        return this.fall.mostOver(values, (run) => run.voltageAt(this.watched.place, seconds));
      },
      {
        direction: (index) => this.fall.timeDirection(index, this.fromShutdown),
        likely: (index) => this.fall.likelyTime(index, this.fromShutdown),
        outer: (end) =>
          this.fall.roughVoltage(this.watched.place, setting.conditions.dischargeTime, this.fromShutdown, end),
      },
    );
    return this.atLimit;
  }

  private get fromShutdown(): boolean {
    return this.fall.setting.conditions.dischargeClock === 'shutdown-opens';
  }

  /** @param clocked counted from the opening of the shutdown circuit, else from that of the isolation relays */
  private time(clocked: boolean): TimeFigure {
    const known = this.times.get(clocked);
    if (known !== undefined) return known;
    const { setting } = this.fall;
    const dependence: Dependence = {
      direction: (index) => this.fall.timeDirection(index, clocked),
      likely: (index) => this.fall.likelyTime(index, clocked),
      outer: (end) => this.fall.roughTime(this.watched.place, setting.conditions.dischargeVoltage, clocked, end),
    };
    const seconds = (values: Values): number => this.seconds(values, clocked);
    const figure = timeFigureOf(setting.box, boundsOf(setting.box, seconds, dependence), setting.names, dependence);
    this.times.set(clocked, figure);
    return figure;
  }

  private seconds(values: Values, clocked: boolean): number {
    const { setting } = this.fall;
    const { dischargeVoltage } = setting.conditions;
    const fall = this.fall.mostOver(values, (run) => run.timeToLimit(this.watched.place, dischargeVoltage));
    return fall + (clocked ? setting.isolationDelay(values) : 0);
  }
}
