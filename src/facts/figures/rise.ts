import type { Resistor } from '../../circuit/model.js';
import { type Bounds, boundsOf, type Dependence, type Direction } from '../../transient/bounds.js';
import type { Box } from '../../transient/box.js';
import type { CompiledElement, Values } from '../../transient/compiled-circuit.js';
import { largestSize, type Piece } from '../../transient/piecewise.js';
import type { Pulses } from '../../transient/thermal-history.js';
import type { PartRange, Rise, SingleMove } from '../facts.js';
import type { Figure, TimeFigure } from '../figure.js';
import { figureOf, noFigure, noTimeFigure, timeFigureOf } from './figure-of.js';
import { fixed } from './fixed.js';
import { notComputable } from './not-computable.js';
import { missingResistances } from './missing-resistances.js';
import { outerEnd } from './outer-end.js';
import { placed } from './placed.js';
import { RiseBounds } from './rise-bounds.js';
import type { RiseSetting } from './rise-run.js';
import { singleMoves } from './single-moves.js';
import { coolestPossible, type PulseRow } from './temperature-bounds.js';
import { backToBack, once, type Thermal, thermalOf, thermalPeak } from './thermal-peak.js';

/** The figures of the rise, each computed when it is first read. */
export class RiseFacts extends RiseBounds implements Rise {
  private readonly figures = new Map<string, Figure>();
  private heat: { readonly bounds: Bounds | undefined } | undefined;

  get resistor(): string | undefined {
    return this.part?.id;
  }

  /** The same rise with one part at exactly the value, or anywhere in a range, its figures at one end only where that is named. */
  vary(element: string, value: number | PartRange, only?: 'min' | 'max'): RiseFacts {
    return this.within(fixed(this.compiled, this.box, element, value, only));
  }

  /** The same rise at one point of its ranges. */
  at(shares: Readonly<Record<string, number>>): RiseFacts {
    return this.within(placed(this.box, this.names, shares));
  }

  singleMoves(): readonly SingleMove<RiseFacts>[] {
    return singleMoves(this.box, this.names, (nominal) => this.within({ nominal, uncertain: [], only: 'max' }));
  }

  private within(box: Box): RiseFacts {
    const { circuit } = this.compiled;
    return new RiseFacts(circuit, this.topology, this.conditions, this.rise, { parent: this, box });
  }

  get steadyRatio(): Figure {
    return this.figure('steadyRatio', ({ link }) =>
      this.bounded((values) => this.run(values).steadyRatio(), {
        direction: this.ratio(this.signs?.steadyVoltage(link), 1),
        likely: this.likelyRatio(this.signs?.likelySteadyVoltage(link), 1),
        inner: (index) => this.turnsIn(index),
        outer: (end) => this.steadyAtLeast(end),
        // A steady voltage of a linear network is a Möbius function of each resistance, and linear in each source.
        oneWay: this.signs?.scales,
      }),
    );
  }

  get timeToThreshold(): TimeFigure {
    return this.timeTo(this.setLevel);
  }

  /** s to any ratio of the open-circuit voltage. */
  timeTo(ratio: number): TimeFigure {
    const figure = this.figure(`timeTo ${ratio.toString()}`, ({ link }) => {
      const { rising } = this.signs ?? {};
      const dependence: Dependence = {
        direction: this.ratio(rising?.timeToReach(link, ratio, this.box), -1),
        likely: this.likelyRatio(this.signs?.likelyTimeToReach(link, ratio, this.box), -1),
        inner: (index) => this.turnsIn(index),
        outer: (end) => this.roughTime(ratio, end),
      };
      return timeFigureOf(
        this.box,
        boundsOf(this.box, (values) => this.run(values).timeTo(ratio), dependence),
        this.names,
        dependence,
      );
    });
    return 'reached' in figure ? (figure as TimeFigure) : noTimeFigure(figure.reason ?? 'no-path', figure.missing);
  }

  get timeConstant(): Figure {
    return this.figure('timeConstant', () =>
      this.bounded((values) => this.run(values).timeConstant(), {
        direction: this.ratio(this.signs?.one?.timeConstant(), -1),
        likely: this.ratio(this.signs?.likelyTimeConstant, -1),
        rough: true,
        inner: (index) => this.isResistance(index),
        outer: (end) => this.slowestPossible(end),
      }),
    );
  }

  /** V, the highest between two nodes in the rise. */
  highestVoltage([a, b]: readonly [string, string]): Figure {
    const [from, to] = [a, b].map((node) => this.compiled.nodes.get(node) ?? -1) as [number, number];
    return this.figure(`highest ${a} ${b}`, () =>
      this.bounded((values) => this.run(values).highestVoltage(from, to), { direction: this.scaling() }),
    );
  }

  get peakCurrent(): Figure {
    return this.figure('peakCurrent', () => this.ofResistor((part, values) => this.peak(part, values), 'current'));
  }

  get resistorPeakPower(): Figure {
    return this.figure('resistorPeakPower', () =>
      this.ofResistor((part, values) => this.peak(part, values) ** 2 * (values[part.primary] as number), 'power'),
    );
  }

  get resistorEnergy(): Figure {
    return this.figure('resistorEnergy', () => {
      const bounds = this.heatToThreshold();
      return bounds === undefined
        ? noFigure(this.part === undefined ? 'no-path' : 'never')
        : figureOf(this.box, bounds, this.names, { direction: this.scaling() });
    });
  }

  get resistorEnergyTotal(): Figure {
    return this.figure('resistorEnergyTotal', () => {
      const bounds = this.part && this.energyBounds(this.part, undefined);
      return bounds === undefined
        ? noFigure(this.part === undefined ? 'no-path' : 'never')
        : figureOf(this.box, bounds, this.names, { direction: this.scaling() });
    });
  }

  get resistorPeakTemperature(): Figure {
    return this.figure('resistorPeakTemperature', () => this.hottest(once, { count: 1, interval: Infinity }));
  }

  attemptsPeakTemperature(count: number, interval: number): Figure {
    return this.figure(`attempts ${count.toString()} ${interval.toString()}`, () =>
      this.hottest(backToBack(count, interval), { count, interval }),
    );
  }

  get currentAtSecondClosure(): Figure {
    return this.closureCurrent(this.setLevel);
  }

  /** A through the last relays where they close at a ratio, the comparison's error taken off it. */
  closureCurrent(ratio: number): Figure {
    return this.figure(`closureCurrent ${ratio.toString()}`, () => {
      const relays = this.topology.bridgedRelays.map((id) => this.compiled.byId.get(id)?.index ?? -1);
      if (relays.length === 0) return noFigure('no-path');
      const level = ratio - (this.compiled.circuit.control.precharge?.comparisonError ?? 0);
      const inrush = (values: Values): number => this.run(values).inrushAt(level, relays);
      const nominal = inrush(this.box.nominal);
      if (Number.isNaN(nominal)) return noFigure('ideal-loop', missingResistances(this.compiled));
      if (nominal === Infinity) return noFigure('never');
      const carries = this.run(this.box.nominal).carriesInrush(level);
      const element = (index: number): string => this.compiled.parameters[index]?.element ?? '';
      const proved = this.closure(level, relays);
      return this.bounded((values) => finiteOr(inrush(values), 0), {
        direction: (index) => (proved?.exact === true ? proved.directions?.(index) : undefined),
        likely: (index) => {
          if (proved?.directions !== undefined) return proved.directions(index);
          if (this.isVoltage(index)) return this.signs?.oneVoltageAfter === true ? 1 : undefined;
          // The instant is set by the link's voltage, so the capacitance only moves its time.
          if (this.isCapacitance(index)) return this.signs?.one === undefined ? undefined : 0;
          return this.isResistance(index) && carries(element(index)) ? -1 : 0;
        },
        outer: (end) => proved?.outer(end),
      });
    });
  }

  private figure(key: string, make: (setting: RiseSetting) => Figure): Figure {
    const known = this.figures.get(key);
    if (known !== undefined) return known;
    const { setting } = this;
    const made = setting === undefined ? noFigure('no-path') : this.made(setting, make);
    this.figures.set(key, made);
    return made;
  }

  /** A rise that cannot be computed as described has no figures; it says what is missing. */
  private made(setting: RiseSetting, make: (setting: RiseSetting) => Figure): Figure {
    try {
      return make(setting);
    } catch (error) {
      const refused = notComputable(this.compiled.circuit, error);
      if (refused === undefined) throw error;
      return noFigure(refused.reason, refused.missing);
    }
  }

  private ofResistor(evaluate: (part: CompiledElement, values: Values) => number, kind: 'current' | 'power'): Figure {
    const { part } = this;
    if (part === undefined) return noFigure('no-path');
    return this.bounded((values) => evaluate(part, values), this.firstCurrent(part, kind));
  }

  /** A part's own power has its matched load inside its range, so inner points are tried for its own resistance. */
  private firstCurrent(part: CompiledElement, kind: 'current' | 'power'): Dependence {
    const { signs } = this;
    const proved = kind === 'current' ? signs?.firstCurrent(part) : signs?.firstPower(part, this.box);
    const start = signs?.likelyStart;
    const likely = kind === 'current' ? start?.firstCurrent(part) : start?.firstPower(part, this.box);
    return {
      direction: proved ?? this.scaling(),
      likely,
      inner: (index) => index === part.primary,
      outer: (end) => this.roughFirst(part, kind, end),
    };
  }

  private heatToThreshold(): Bounds | undefined {
    const part = this.part;
    if (part === undefined) return undefined;
    this.heat ??= { bounds: this.energyBounds(part, this.setLevel) };
    return this.heat.bounds;
  }

  /**
   * With voltage and capacitance it rises as the heat does (the same pulse, larger or longer); of the rest the end that gives
   * the most heat is likely to be the hottest, its own resistance apart, which also makes the pulse longer.
   */
  private hottest(rows: (current: readonly Piece[], until: number) => readonly Pulses[], row: PulseRow): Figure {
    const part = this.part;
    if (part === undefined) return noFigure('no-path');
    const thermal = thermalOf(part.source as Resistor, this.compiled.circuit.ambientMax);
    if ('missing' in thermal) return noFigure('not-stated', thermal.missing);
    const heat = this.heatToThreshold();
    return this.bounded(
      (values) => {
        const run = this.run(values);
        const pulses = rows(run.current(part.index), Math.min(run.timeTo(this.setLevel), this.brokenOffAt));
        return thermalPeak(thermal, values[part.primary] as number, pulses);
      },
      {
        direction: this.scaling(),
        likely: (index) => {
          if (index === part.primary) return undefined;
          // A rise that never ends is hottest where most flows.
          if (heat === undefined) return this.signs?.likelyStart?.firstCurrent(part)(index);
          return Math.sign((heat.max.values[index] as number) - (heat.min.values[index] as number)) as Direction;
        },
        outer: (end) => this.temperatureBound(part, thermal, row, end),
      },
    );
  }

  private temperatureBound(part: CompiledElement, thermal: Thermal, row: PulseRow, end: 'min' | 'max') {
    const heat = this.heatToThreshold()?.[end];
    const energy = heat === undefined || heat.gap === null ? undefined : heat.value;
    const risen = outerEnd(this.timeToThreshold, 'max') ?? Infinity;
    if (end === 'min') {
      // What is broken off takes less than the heat up to the threshold.
      if (energy === undefined || risen === Infinity || risen > this.brokenOffAt) return undefined;
      return coolestPossible(thermal, energy, risen, row);
    }
    const longest = risen === Infinity && this.brokenOffAt === Infinity ? undefined : Math.min(risen, this.brokenOffAt);
    // Held for ever the first instant's power would bound it too, but so far out that what was found tells more.
    const brief = energy !== undefined || longest !== undefined;
    const power = (brief ? outerEnd(this.resistorPeakPower, 'max') : undefined) ?? Infinity;
    // A rise is not broken off by the next, so the quickest is the closest that they follow each other.
    const quickest = row.count === 1 ? 0 : Math.min(outerEnd(this.timeToThreshold, 'min') ?? 0, this.brokenOffAt);
    const closest = { count: row.count, interval: Math.max(row.interval, quickest) };
    return this.hottestPossible(part, thermal, { energy, power, longest }, closest);
  }

  /** @param ratio that ends the rise; undefined: left on for ever */
  private energyBounds(part: CompiledElement, ratio: number | undefined): Bounds | undefined {
    const time = (values: Values): number => (ratio === undefined ? Infinity : this.run(values).timeTo(ratio));
    const energy = (values: Values): number =>
      this.run(values).squared(part.index, time(values)) * (values[part.primary] as number);
    // What never ends at the nominal values is not searched: something keeps drawing whatever the tolerances.
    if (energy(this.box.nominal) === Infinity) return undefined;
    const exact = this.signs?.one !== undefined;
    return boundsOf(this.box, energy, {
      direction: this.scaling(),
      // With the voltage and the capacitance all heat is likely to grow, and with the share of the voltage that the part takes.
      likely: (index) => {
        if (this.isVoltage(index) || this.isCapacitance(index)) return 1;
        if (index === part.primary) return exact ? undefined : 1;
        return exact ? undefined : 0;
      },
      inner: (index) => index === part.primary,
      outer: (end) => this.heatBound(part, ratio, end),
    });
  }

  private peak(part: CompiledElement, values: Values): number {
    const run = this.run(values);
    return largestSize(run.current(part.index), run.timeTo(this.setLevel));
  }
}

function finiteOr(value: number, other: number): number {
  return Number.isFinite(value) ? value : other;
}
