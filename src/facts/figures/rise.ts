import type { Resistor } from '../../circuit/model.js';
import type { Box } from '../../transient/box.js';
import { type Bounds, boundsOf, type Dependence, type Direction } from '../../transient/bounds.js';
import {
  type CompiledCircuit,
  type CompiledElement,
  compileCircuit,
  type Values,
} from '../../transient/compiled-circuit.js';
import { largestSize, integralOfSquare } from '../../transient/piecewise.js';
import { OneState } from '../../transient/one-state.js';
import type { Conditions } from '../conditions.js';
import type { Rise, Topology } from '../facts.js';
import type { Figure, TimeFigure } from '../figure.js';
import { figureOf, nameOf, type NamedParameter, noFigure, noTimeFigure, timeFigureOf } from './figure-of.js';
import { withEventMeter } from './event-meter.js';
import { missingInLoop } from './missing-in-loop.js';
import { missingResistances } from './missing-resistances.js';
import { accumulatorChain } from './open-circuit.js';
import { peakTemperature } from './peak-temperature.js';
import { RiseRun, type RiseSetting, riseModes } from './rise-run.js';
import type { RiseState } from './rise-state.js';
import { fixed } from './fixed.js';
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
  private readonly runs = new Map<string, RiseRun>();
  private readonly figures = new Map<string, Figure>();
  private proof: { readonly state: OneState | undefined } | undefined;
  private guess: { readonly state: OneState | undefined } | undefined;
  private heat: { readonly bounds: Bounds | undefined } | undefined;

  constructor(
    circuit: ResolvedCircuit,
    private readonly topology: Topology,
    private readonly conditions: Conditions,
    private readonly rise: RiseState,
    varied?: { readonly parent: RiseFacts; readonly element: string; readonly value: number },
  ) {
    const { compiled, box, names } =
      varied === undefined ? compileRise(circuit, topology, conditions) : varied.parent.base();
    this.compiled = compiled;
    this.box = varied === undefined ? box : fixed(compiled, box, varied.element, varied.value);
    this.names = names;
    // Directions rest on the graph and on signs that hold for all positive values, so a varied circuit keeps them.
    if (varied !== undefined) {
      this.proof = { state: varied.parent.state };
      this.guess = { state: varied.parent.likely };
    }
    const chain = accumulatorChain(compiled, topology);
    const [positive, negative] = circuit.link ?? [];
    const a = compiled.nodes.get(positive ?? '');
    const b = compiled.nodes.get(negative ?? '');
    if (a !== undefined && b !== undefined && chain.length > 0) this.setting = { state: rise, chain, link: { a, b } };
    this.part = this.largestPrechargeResistor();
    if (this.part !== undefined) this.resistor = this.part.id;
  }

  private base() {
    return { compiled: this.compiled, box: this.box, names: this.names };
  }

  /** The same rise with one part at exactly the value. */
  vary(element: string, value: number): RiseFacts {
    return new RiseFacts(this.compiled.circuit, this.topology, this.conditions, this.rise, {
      parent: this,
      element,
      value,
    });
  }

  get steadyRatio(): Figure {
    return this.figure('steadyRatio', (setting) =>
      this.bounded(
        (values) => this.run(values).steadyRatio(),
        this.ratio((state) => state.steadyVoltage(setting.link)),
      ),
    );
  }

  get timeToThreshold(): TimeFigure {
    return this.timeTo(this.setLevel);
  }

  /** s to any ratio of the open-circuit voltage. */
  timeTo(ratio: number): TimeFigure {
    const figure = this.figure(`timeTo ${ratio.toString()}`, (setting) => {
      const dependence = this.ratio((state) => state.timeToReach(setting.link, ratio));
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
      this.bounded(
        (values) => this.run(values).timeConstant(),
        this.ratio((state) => state.timeConstant()),
      ),
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
      const bounds = this.part && this.energyBounds(this.part, () => Infinity);
      return bounds === undefined
        ? noFigure(this.part === undefined ? 'no-path' : 'never')
        : figureOf(this.box, bounds, this.names, this.scaling());
    });
  }

  get resistorPeakTemperature(): Figure {
    return this.figure('resistorPeakTemperature', () => {
      const resistor = this.part?.source as Resistor | undefined;
      if (resistor === undefined) return noFigure('no-path');
      const { ambientMax } = this.compiled.circuit;
      const missing = missingThermal(resistor, ambientMax);
      if (missing.length > 0) return noFigure('not-stated', missing);
      return this.hottest(resistor, ambientMax);
    });
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
      const rising = this.scaling();
      const carries = this.run(this.box.nominal).carriesInrush(level);
      const direction = (index: number): Direction => {
        // The instant is set by the link's voltage, so the capacitance only moves its time.
        if (this.isCapacitance(index) && this.state !== undefined) return 0;
        const before = rising(index);
        return before === 0 && carries(this.compiled.parameters[index]?.element ?? '') ? undefined : before;
      };
      const element = (index: number): string => this.compiled.parameters[index]?.element ?? '';
      return this.bounded((values) => finiteOr(inrush(values), 0), {
        direction,
        ...this.likelyGrowing((index) => (this.isResistance(index) && carries(element(index)) ? -1 : 0)),
      });
    });
  }

  /** The ratio that ends the rise: the car's own setting, else the ruleset's level. */
  get setLevel(): number {
    return this.compiled.circuit.control.precharge?.threshold ?? this.conditions.threshold;
  }

  /** The rise at one set of values. */
  run(values: Values): RiseRun {
    const key = values.join();
    const known = this.runs.get(key);
    if (known !== undefined) return known;
    if (this.setting === undefined) throw new Error('a rise needs a link and an accumulator');
    // A copy: the search goes on with the same array, and a run reads its values later too.
    const run = new RiseRun(this.compiled, Float64Array.from(values), this.setting);
    this.runs.set(key, run);
    return run;
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
    const likely = this.likely?.firstCurrent(part, kind);
    return {
      direction: this.state?.firstCurrent(part, kind) ?? this.scaling(),
      ...(likely === undefined ? {} : { likely }),
      inner: (index) => index === part.primary,
    };
  }

  private heatToThreshold(): Bounds | undefined {
    const part = this.part;
    if (part === undefined) return undefined;
    this.heat ??= { bounds: this.energyBounds(part, (values) => this.run(values).timeTo(this.setLevel)) };
    return this.heat.bounds;
  }

  /** Taken where its heat and where its power are largest and smallest: the temperature follows one or the other. */
  private hottest(resistor: Resistor, ambientMax: number | undefined): Figure {
    const part = this.part;
    if (part === undefined) return noFigure('no-path');
    const temperature = (values: Values): number => {
      const run = this.run(values);
      return peakTemperature(
        resistor,
        values[part.primary] as number,
        run.current(part.index),
        run.timeTo(this.setLevel),
        ambientMax,
      );
    };
    const heat = this.heatToThreshold();
    const power = boundsOf(
      this.box,
      (values) => this.peak(part, values) ** 2 * (values[part.primary] as number),
      this.firstCurrent(part, 'power'),
    );
    const places = heat === undefined ? [power] : [heat, power];
    const tops = places.map(({ max }) => ({ value: temperature(max.values), values: max.values }));
    const bottoms = places.map(({ min }) => ({ value: temperature(min.values), values: min.values }));
    const max = tops.reduce((best, each) => (each.value > best.value ? each : best));
    const min = bottoms.reduce((best, each) => (each.value < best.value ? each : best));
    const bare = this.box.uncertain.some(({ assumed }) => assumed);
    const nominal = temperature(this.box.nominal);
    const stated = bare ? { statedMin: nominal, statedMax: nominal } : { statedMin: min.value, statedMax: max.value };
    return figureOf(
      this.box,
      { nominal, min, max, ...stated, proved: false, assumedThatMatter: heat?.assumedThatMatter ?? [] },
      this.names,
      this.scaling(),
    );
  }

  private energyBounds(part: CompiledElement, time: (values: Values) => number): Bounds | undefined {
    const energy = (values: Values): number =>
      integralOfSquare(this.run(values).current(part.index), time(values)) * (values[part.primary] as number);
    // What never ends at the nominal values is not searched: something keeps drawing whatever the tolerances.
    if (energy(this.box.nominal) === Infinity) return undefined;
    return boundsOf(this.box, energy, {
      direction: this.scaling(),
      ...this.likelyGrowing((index) => (index === part.primary ? 1 : 0)),
      inner: (index) => index === part.primary,
    });
  }

  private peak(part: CompiledElement, values: Values): number {
    const run = this.run(values);
    return largestSize(run.current(part.index), run.timeTo(this.setLevel));
  }

  /** For a figure relative to the open-circuit voltage: a single accumulator's voltage scales everything and drops out. */
  private ratio(read: (state: OneState) => (index: number) => Direction): Dependence {
    const { state, likely } = this;
    const of =
      (direction: ((index: number) => Direction) | undefined) =>
      (index: number): Direction => {
        if (direction === undefined) return undefined;
        return this.isVoltage(index) ? (this.onlyVoltage ? 0 : undefined) : direction(index);
      };
    return {
      direction: of(state && read(state)),
      likely: of(likely && read(likely)),
      inner: (index) => this.isResistance(index),
    };
  }

  /** Where loads leave nothing proved: with the voltage and the capacitance all heat and current is likely to grow. */
  private likelyGrowing(other: (index: number) => Direction): Pick<Dependence, 'likely'> {
    if (this.likely === undefined) return {};
    return { likely: (index) => (this.isVoltage(index) || this.isCapacitance(index) ? 1 : other(index)) };
  }

  /** What can be told of any heat or current: it grows with the only voltage, heat with the only capacitance (time is stretched); what carries nothing has no part in it. */
  private scaling(): (index: number) => Direction {
    const shown = this.state?.timeConstant();
    const steady = this.setting === undefined ? undefined : this.state?.steadyVoltage(this.setting.link);
    return (index) => {
      if (this.state === undefined || shown === undefined || steady === undefined) return undefined;
      if (this.isVoltage(index)) return this.onlyVoltage ? 1 : undefined;
      if (this.isCapacitance(index)) return 1;
      return shown(index) === 0 && steady(index) === 0 ? 0 : undefined;
    };
  }

  private get state(): OneState | undefined {
    if (this.setting === undefined) return undefined;
    this.proof ??= { state: this.oneState('plain') };
    return this.proof.state;
  }

  /** Signs taken as if every load were a resistance, where that is not proved: they show where to look. */
  private get likely(): OneState | undefined {
    if (this.state !== undefined || this.setting === undefined) return undefined;
    this.guess ??= { state: this.oneState('any') };
    return this.guess.state;
  }

  private oneState(loads: 'plain' | 'any'): OneState | undefined {
    const { link } = this.setting ?? {};
    if (link === undefined) return undefined;
    return OneState.of(this.compiled, this.box, riseModes(this.compiled, this.rise), 'rise', [link], loads);
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

function missingThermal(resistor: Resistor, ambientMax: number | undefined): string[] {
  const missing: string[] = [];
  if (resistor.thermal?.resistance === undefined) missing.push(`${resistor.pointer}/thermal/resistance`);
  if (resistor.thermal?.capacitance === undefined) missing.push(`${resistor.pointer}/thermal/capacitance`);
  if (resistor.ambientMax === undefined && ambientMax === undefined) missing.push(`${resistor.pointer}/ambientMax`);
  return missing;
}

function finiteOr(value: number, other: number): number {
  return Number.isFinite(value) ? value : other;
}
