import type { ResolvedCircuit } from '../../circuit/model.js';
import { accuracyOf } from '../../transient/accuracy.js';
import { boundsOf, type Dependence, type Directions } from '../../transient/bounds.js';
import type { Box } from '../../transient/box.js';
import {
  type CompiledCircuit,
  type CompiledElement,
  compileCircuit,
  type Values,
} from '../../transient/compiled-circuit.js';
import { startModes } from '../../transient/start-modes.js';
import { statesSolved } from '../../transient/work-budget.js';
import type { Conditions } from '../conditions.js';
import type { Topology } from '../facts.js';
import type { Figure } from '../figure.js';
import { ByValues } from './by-values.js';
import { withEventMeter } from './event-meter.js';
import { figureOf, nameOf, type NamedParameter } from './figure-of.js';
import { accumulatorChain } from './open-circuit.js';
import { modesAfterClosing, RiseRun, type RiseSetting } from './rise-run.js';
import { RiseSigns } from './rise-signs.js';
import type { RiseState } from './rise-state.js';
import { circuitBox } from './tolerance-of.js';

/** What the figures of a rise are made of: its circuit and ranges, its runs, and what is proved of it. */
export class RiseModel {
  /** The part that the figures speak of: the largest pre-charge resistor that carries the rise. */
  protected readonly part: CompiledElement | undefined;
  protected readonly compiled: CompiledCircuit;
  protected readonly box: Box;
  protected readonly names: readonly NamedParameter[];
  protected readonly setting: RiseSetting | undefined;
  protected readonly signs: RiseSigns | undefined;
  private readonly runs = new ByValues<RiseRun>();

  constructor(
    circuit: ResolvedCircuit,
    protected readonly topology: Topology,
    protected readonly conditions: Conditions,
    protected readonly rise: RiseState,
    varied?: { readonly parent: RiseModel; readonly box: Box },
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
        const starts = startModes(compiled, { closed: rise.closed, open: rise.open });
        this.setting = { starts, modesAfter: modesAfterClosing(compiled, rise), chain, link };
        this.signs = new RiseSigns(compiled, box, rise, link, chain);
      }
    }
    this.part = this.largestPrechargeResistor();
  }

  /** The ratio that ends the rise: the car's own setting, else the ruleset's level. */
  get setLevel(): number {
    return this.compiled.circuit.control.precharge?.threshold ?? this.conditions.threshold;
  }

  /** s after which a rise is broken off wherever the link is by then: the comparison's timeout; Infinity: it is not. */
  protected get brokenOffAt(): number {
    const { method, timeout } = this.compiled.circuit.control.precharge ?? {};
    return method === 'timer' || timeout === undefined ? Infinity : timeout;
  }

  /** Relative; see `Facts.accuracy`. */
  get accuracy(): number {
    return accuracyOf(this.compiled);
  }

  /** See `Facts.statesSolved`. */
  get statesSolved(): number {
    return statesSolved(this.compiled);
  }

  /** The rise at one set of values. */
  run(values: Values): RiseRun {
    const { setting } = this;
    if (setting === undefined) throw new Error('a rise needs a link and an accumulator');
    return this.runs.get(values, (own) => new RiseRun(this.compiled, own, setting));
  }

  protected bounded(evaluate: (values: Values) => number, dependence: Dependence): Figure {
    return figureOf(this.box, boundsOf(this.box, evaluate, dependence), this.names, dependence);
  }

  // ---------------------------------------------------------------- parameters

  /**
   * For a figure relative to the open-circuit voltage: the voltage of accumulators that act as one scales everything and drops out,
   * but for what loads of constant current or power draw, which weighs less the higher it is.
   * @param higher what the figure then does
   */
  protected ratio(directions: Directions | undefined, higher: 1 | -1): Directions {
    const { scales } = this.signs ?? {};
    return (index) => {
      if (directions === undefined) return undefined;
      if (!this.isSummed(index)) return directions(index);
      return this.oneVoltage ? (scales === true ? 0 : higher) : undefined;
    };
  }

  /**
   * For what is likely of such a figure. A load that sleeps is woken sooner by a higher voltage and fed better by it, so neither end
   * need be the worst.
   */
  protected likelyRatio(directions: Directions | undefined, higher: 1 | -1): Directions {
    const likely = this.ratio(directions, higher);
    return (index) => (!this.isResistance(index) && this.turnsIn(index) ? undefined : likely(index));
  }

  /** Whether a ratio may turn inside a parameter's range. */
  protected turnsIn(index: number): boolean {
    if (this.isResistance(index)) return true;
    return this.isSummed(index) && this.signs?.scales === false && this.signs.rising === undefined;
  }

  /** What can be told of any heat or current: it grows with the voltages that act as one, heat with the only capacitance (time is stretched); what carries nothing has no part in it. */
  protected scaling(): Directions {
    const state = this.signs?.one;
    const shown = state?.timeConstant();
    const steady = this.setting === undefined ? undefined : state?.steadyVoltage(this.setting.link);
    return (index) => {
      if (shown === undefined || steady === undefined) return undefined;
      if (this.isSummed(index)) return this.oneVoltage ? 1 : undefined;
      if (this.isCapacitance(index)) return 1;
      return shown(index) === 0 && steady(index) === 0 ? 0 : undefined;
    };
  }

  /** Whether the accumulators' voltages count by their sum alone, so that each acts as the only one of a circuit does. */
  protected get oneVoltage(): boolean {
    return this.signs?.oneVoltage === true;
  }

  protected isResistance(index: number): boolean {
    const field = this.compiled.parameters[index]?.field;
    return field === 'resistance' || field === 'esr';
  }

  protected isVoltage(index: number): boolean {
    return this.compiled.parameters[index]?.field === 'voltage';
  }

  /** One of the voltages that add up to the open-circuit voltage. */
  protected isSummed(index: number): boolean {
    return this.setting?.chain.some((each) => each.index === index) === true;
  }

  protected isCapacitance(index: number): boolean {
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
