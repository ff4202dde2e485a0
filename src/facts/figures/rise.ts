import type { Resistor } from '../../circuit/model.js';
import type { Box } from '../../transient/box.js';
import { type Bounds, boundsOf, type Dependence, type Direction } from '../../transient/bounds.js';
import {
  type CompiledCircuit,
  type CompiledElement,
  compileCircuit,
  type Values,
} from '../../transient/compiled-circuit.js';
import { largestSize, integralOfSquare, type Piece } from '../../transient/piecewise.js';
import { type Lump, mostFedIn } from '../../transient/lump.js';
import type { Pulses } from '../../transient/thermal-history.js';
import type { Directions } from '../../transient/network-signs.js';
import type { Conditions } from '../conditions.js';
import type { PartRange, Rise, SingleMove, Topology } from '../facts.js';
import type { Figure, TimeFigure } from '../figure.js';
import { ByValues } from './by-values.js';
import { figureOf, nameOf, type NamedParameter, noFigure, noTimeFigure, timeFigureOf } from './figure-of.js';
import { withEventMeter } from './event-meter.js';
import { missingInLoop } from './missing-in-loop.js';
import { missingResistances } from './missing-resistances.js';
import { type ClosureBound, closureBound } from './closure-bound.js';
import { corner, heatBound } from './heat-bounds.js';
import { accumulatorChain, openCircuitVoltage } from './open-circuit.js';
import { modesAfterClosing, RiseRun, type RiseSetting } from './rise-run.js';
import { RiseSigns } from './rise-signs.js';
import { placed } from './placed.js';
import type { RiseState } from './rise-state.js';
import { singleMoves } from './single-moves.js';
import { fixed } from './fixed.js';
import { backToBack, once, thermalOf, thermalPeak } from './thermal-peak.js';
import { circuitBox } from './tolerance-of.js';
import type { ResolvedCircuit } from '../../circuit/model.js';

/** The figures of the rise, each computed when it is first read. */
export class RiseFacts implements Rise {
  readonly resistor?: string;

  private readonly compiled: CompiledCircuit;
  private readonly box: Box;
  private readonly names: readonly NamedParameter[];
  private readonly setting: RiseSetting | undefined;
  private readonly part: CompiledElement | undefined;
  private readonly runs = new ByValues<RiseRun>();
  private readonly figures = new Map<string, Figure>();
  private readonly signs: RiseSigns | undefined;
  private heat: { readonly bounds: Bounds | undefined } | undefined;

  constructor(
    circuit: ResolvedCircuit,
    private readonly topology: Topology,
    private readonly conditions: Conditions,
    private readonly rise: RiseState,
    varied?: { readonly parent: RiseFacts; readonly box: Box },
  ) {
    if (varied !== undefined) {
      const { parent } = varied;
      // Directions rest on the graph and on signs that hold for all positive values, so a varied circuit keeps them.
      this.compiled = parent.compiled;
      this.names = parent.names;
      this.setting = parent.setting;
      this.signs = parent.signs;
      this.box = varied.box;
    } else {
      const { compiled, box, names } = compileRise(circuit, topology, conditions);
      this.compiled = compiled;
      this.names = names;
      this.box = box;
      const chain = accumulatorChain(compiled, topology);
      const [positive, negative] = circuit.link ?? [];
      const a = compiled.nodes.get(positive ?? '');
      const b = compiled.nodes.get(negative ?? '');
      if (a !== undefined && b !== undefined && chain.length > 0) {
        const link = { a, b };
        this.setting = { state: rise, modesAfter: modesAfterClosing(compiled, rise), chain, link };
        this.signs = new RiseSigns(compiled, box, rise, link);
      }
    }
    this.part = this.largestPrechargeResistor();
    if (this.part !== undefined) this.resistor = this.part.id;
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
        likely: this.ratio(this.signs?.likely?.steadyVoltage(link), 1),
        inner: (index) => this.isResistance(index),
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
      const { rising, likely, lumped } = this.signs ?? {};
      const dependence: Dependence = {
        direction: this.ratio(rising?.timeToReach(link, ratio), -1),
        likely: this.ratio((likely ?? lumped?.state)?.timeToReach(link, ratio), -1),
        inner: (index) => this.isResistance(index),
        outer: (end) => this.roughTime(ratio, end),
      };
      return timeFigureOf(
        this.box,
        boundsOf(this.box, (values) => this.run(values).timeTo(ratio), dependence),
        this.names,
        dependence.direction,
      );
    });
    return 'reached' in figure ? (figure as TimeFigure) : noTimeFigure(figure.reason ?? 'no-path', figure.missing);
  }

  get timeConstant(): Figure {
    return this.figure('timeConstant', () =>
      this.bounded((values) => this.run(values).timeConstant(), {
        direction: this.ratio(this.signs?.one?.timeConstant(), -1),
        likely: this.ratio((this.signs?.likely ?? this.signs?.lumped?.state)?.timeConstant(), -1),
        inner: (index) => this.isResistance(index),
      }),
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
        : figureOf(this.box, bounds, this.names, this.scaling());
    });
  }

  get resistorEnergyTotal(): Figure {
    return this.figure('resistorEnergyTotal', () => {
      const bounds = this.part && this.energyBounds(this.part, undefined);
      return bounds === undefined
        ? noFigure(this.part === undefined ? 'no-path' : 'never')
        : figureOf(this.box, bounds, this.names, this.scaling());
    });
  }

  get resistorPeakTemperature(): Figure {
    return this.figure('resistorPeakTemperature', () => this.hottest(once));
  }

  attemptsPeakTemperature(count: number, interval: number): Figure {
    return this.figure(`attempts ${count.toString()} ${interval.toString()}`, () =>
      this.hottest(backToBack(count, interval)),
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
        direction: (index) => (proved?.exact === true ? proved.directions(index) : undefined),
        likely: (index) => {
          if (proved !== undefined) return proved.directions(index);
          if (this.isVoltage(index)) return this.onlyVoltage ? 1 : undefined;
          // The instant is set by the link's voltage, so the capacitance only moves its time.
          if (this.isCapacitance(index)) return this.signs?.one === undefined ? undefined : 0;
          return this.isResistance(index) && carries(element(index)) ? -1 : 0;
        },
        outer: (end) => proved?.outer(end),
      });
    });
  }

  /** What is proved of the current at the closing of the last relays; undefined: nothing. */
  private closure(level: number, relays: readonly number[]): ClosureBound | undefined {
    const { setting, signs } = this;
    if (setting === undefined || signs === undefined || !this.onlyVoltage) return undefined;
    return closureBound({
      compiled: this.compiled,
      box: this.box,
      setting,
      signs,
      level,
      relays,
      run: (values) => this.run(values),
    });
  }

  /** The ratio that ends the rise: the car's own setting, else the ruleset's level. */
  get setLevel(): number {
    return this.compiled.circuit.control.precharge?.threshold ?? this.conditions.threshold;
  }

  /** The rise at one set of values. */
  run(values: Values): RiseRun {
    const { setting } = this;
    if (setting === undefined) throw new Error('a rise needs a link and an accumulator');
    return this.runs.get(values, (own) => new RiseRun(this.compiled, own, setting));
  }

  private figure(key: string, make: (setting: RiseSetting) => Figure): Figure {
    const known = this.figures.get(key);
    if (known !== undefined) return known;
    const { setting } = this;
    const made = setting === undefined ? noFigure('no-path') : this.made(setting, make);
    this.figures.set(key, made);
    return made;
  }

  /** A rise that would need infinite current has no figures; it says which resistances are missing. */
  private made(setting: RiseSetting, make: (setting: RiseSetting) => Figure): Figure {
    try {
      return make(setting);
    } catch (error) {
      const missing = missingInLoop(this.compiled.circuit, error);
      if (missing === undefined) throw error;
      return noFigure('ideal-loop', missing);
    }
  }

  private bounded(evaluate: (values: Values) => number, dependence: Dependence): Figure {
    return figureOf(this.box, boundsOf(this.box, evaluate, dependence), this.names, dependence.direction);
  }

  private ofResistor(evaluate: (part: CompiledElement, values: Values) => number, kind: 'current' | 'power'): Figure {
    const { part } = this;
    if (part === undefined) return noFigure('no-path');
    return this.bounded((values) => evaluate(part, values), this.firstCurrent(part, kind));
  }

  /** A part's own power has its matched load inside its range, so inner points are tried for its own resistance. */
  private firstCurrent(part: CompiledElement, kind: 'current' | 'power'): Dependence {
    const { signs } = this;
    const proved = kind === 'current' ? signs?.firstCurrent(part) : signs?.firstPower(part);
    const likely = kind === 'current' ? signs?.likely?.firstCurrent(part) : signs?.likely?.firstPower(part);
    return {
      direction: proved ?? this.scaling(),
      likely,
      inner: (index) => index === part.primary,
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
  private hottest(rows: (current: readonly Piece[], until: number) => readonly Pulses[]): Figure {
    const part = this.part;
    if (part === undefined) return noFigure('no-path');
    const thermal = thermalOf(part.source as Resistor, this.compiled.circuit.ambientMax);
    if ('missing' in thermal) return noFigure('not-stated', thermal.missing);
    const heat = this.heatToThreshold();
    return this.bounded(
      (values) => {
        const run = this.run(values);
        const pulses = rows(run.current(part.index), run.timeTo(this.setLevel));
        return thermalPeak(thermal, values[part.primary] as number, pulses);
      },
      {
        direction: this.scaling(),
        likely: (index) =>
          index === part.primary || heat === undefined
            ? undefined
            : (Math.sign((heat.max.values[index] as number) - (heat.min.values[index] as number)) as Direction),
      },
    );
  }

  /** @param ratio that ends the rise; undefined: left on for ever */
  private energyBounds(part: CompiledElement, ratio: number | undefined): Bounds | undefined {
    const time = (values: Values): number => (ratio === undefined ? Infinity : this.run(values).timeTo(ratio));
    const energy = (values: Values): number =>
      integralOfSquare(this.run(values).current(part.index), time(values)) * (values[part.primary] as number);
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

  private heatBound(part: CompiledElement, ratio: number | undefined, end: 'min' | 'max'): number | undefined {
    const { setting, signs } = this;
    const state = signs?.one ?? signs?.lumped?.state;
    if (setting === undefined || state === undefined || !this.onlyVoltage) return undefined;
    const lumped = signs?.one === undefined ? signs?.lumped : undefined;
    // Left on for ever the small voltages that lumping neglects add up without end.
    if (lumped !== undefined && ratio === undefined) return undefined;
    const off = lumped === undefined ? 0 : this.offBy(lumped);
    return heatBound(
      {
        box: lumped?.without(this.box) ?? this.box,
        state,
        part,
        link: setting.link,
        read: (values) => this.run(values).heatReading(part.index),
        voltage: setting.chain[0]?.index,
        ratio,
        off,
        offRatio: off / this.highestVoltage(),
      },
      end,
    );
  }

  /** The time with several capacitors taken as one, as far off as that may be. */
  private roughTime(ratio: number, end: 'min' | 'max'): number | undefined {
    const { signs, setting } = this;
    const lumped = signs?.lumped;
    if (lumped === undefined || setting === undefined || !this.onlyVoltage) return undefined;
    const off = this.offBy(lumped) / this.highestVoltage();
    const level = end === 'max' ? ratio + off : ratio - off;
    const directions = this.ratio(lumped.state.timeToReach(setting.link, level), -1);
    const values = corner(lumped.without(this.box), directions, end);
    return values && this.run(values).timeTo(level);
  }

  /** V by which no voltage is off where capacitors are taken as one. */
  private offBy(lumped: Lump): number {
    const fedIn = mostFedIn(this.compiled, lumped.without(this.box), this.signs?.modes ?? new Uint8Array());
    return 2 * lumped.resistanceIn(this.box) * fedIn;
  }

  /** V between the outermost poles at most. */
  private highestVoltage(): number {
    const values = this.box.nominal.slice();
    for (const { index, high } of this.box.uncertain) if (this.isVoltage(index)) values[index] = high;
    return this.setting === undefined ? 0 : openCircuitVoltage(this.setting.chain, values);
  }

  private peak(part: CompiledElement, values: Values): number {
    const run = this.run(values);
    return largestSize(run.current(part.index), run.timeTo(this.setLevel));
  }

  /**
   * For a figure relative to the open-circuit voltage: a single accumulator's voltage scales everything and drops out, but for what
   * loads of constant current or power draw, which weighs less the higher it is.
   * @param higher what the figure then does
   */
  private ratio(directions: Directions | undefined, higher: 1 | -1): Directions {
    const { scales } = this.signs ?? {};
    return (index) => {
      if (directions === undefined) return undefined;
      if (!this.isVoltage(index)) return directions(index);
      return this.onlyVoltage ? (scales === true ? 0 : higher) : undefined;
    };
  }

  /** What can be told of any heat or current: it grows with the only voltage, heat with the only capacitance (time is stretched); what carries nothing has no part in it. */
  private scaling(): Directions {
    const state = this.signs?.one;
    const shown = state?.timeConstant();
    const steady = this.setting === undefined ? undefined : state?.steadyVoltage(this.setting.link);
    return (index) => {
      if (shown === undefined || steady === undefined) return undefined;
      if (this.isVoltage(index)) return this.onlyVoltage ? 1 : undefined;
      if (this.isCapacitance(index)) return 1;
      return shown(index) === 0 && steady(index) === 0 ? 0 : undefined;
    };
  }

  private get onlyVoltage(): boolean {
    return this.compiled.parameters.filter(({ field }) => field === 'voltage').length === 1;
  }

  private isResistance(index: number): boolean {
    const field = this.compiled.parameters[index]?.field;
    return field === 'resistance' || field === 'esr';
  }

  private isVoltage(index: number): boolean {
    const parameter = this.compiled.parameters[index];
    return parameter?.field === 'voltage';
  }

  private isCapacitance(index: number): boolean {
    return this.compiled.parameters[index]?.field === 'capacitance';
  }

  private largestPrechargeResistor(): CompiledElement | undefined {
    const parts = this.topology.prechargeResistors
      .filter((id) => this.topology.prechargePath.includes(id) || this.topology.prechargePath.length === 0)
      .map((id) => this.compiled.byId.get(id))
      .filter((part) => part !== undefined);
    return parts.reduce<CompiledElement | undefined>((largest, part) => {
      const ohms = (each: CompiledElement): number => this.box.nominal[each.primary] as number;
      return largest === undefined || ohms(part) > ohms(largest) ? part : largest;
    }, undefined);
  }
}

function compileRise(circuit: ResolvedCircuit, topology: Topology, conditions: Conditions) {
  const compiled = compileCircuit(withEventMeter(circuit, topology, conditions.eventMeterResistance));
  const names = compiled.parameters.map((parameter) =>
    nameOf(parameter, compiled.byId.get(parameter.element)?.kind ?? ''),
  );
  return { compiled, box: circuitBox(compiled, conditions), names };
}

function finiteOr(value: number, other: number): number {
  return Number.isFinite(value) ? value : other;
}
