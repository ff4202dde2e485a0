import { type Box, highestOf } from '../../transient/box.js';
import { type CompiledCircuit, type CompiledElement, Mode, type Modes } from '../../transient/compiled-circuit.js';
import { fedAtOneNode } from '../../transient/fed-at-one-node.js';
import { type Lump, lump } from '../../transient/lump.js';
import { type Directions, NetworkSigns, opposite, type Pair } from '../../transient/network-signs.js';
import { OneState } from '../../transient/one-state.js';
import { type Chain, oneVoltage } from '../../transient/one-voltage.js';
import { plainLoads } from '../../transient/plain-loads.js';
import { planOf } from '../../transient/plan-of.js';
import { lazily } from '../lazily.js';
import { modesAfterClosing, riseModes } from './rise-run.js';
import type { RiseState } from './rise-state.js';

/** What is proved of a rise, each thing worked out when it is first asked for. It holds for all positive values, so for varied circuits too. */
export class RiseSigns {
  readonly modes: Modes;
  private readonly plain: () => OneState | undefined;
  private readonly rough: () => OneState | undefined;
  private readonly several: () => NetworkSigns | undefined;
  private readonly closing: () => OneState | undefined;
  private readonly ended: () => NetworkSigns | undefined;
  private readonly together: () => Lump | undefined;
  private readonly roughEnd: () => NetworkSigns | undefined;
  private readonly wakeful: () => boolean;
  private readonly plainly: () => boolean;
  private readonly summed: () => boolean;
  private readonly summedAfter: () => boolean;

  constructor(
    private readonly compiled: CompiledCircuit,
    private readonly box: Box,
    rise: RiseState,
    link: Pair,
    chain: Chain,
  ) {
    const modes = riseModes(compiled, rise);
    this.modes = modes;
    const question = { compiled, box, modes, course: 'rise', pairs: [link] } as const;
    // What is proved is proved of a rise from 0.
    const empty = compiled.elements.every(({ source }) => source.kind !== 'capacitor' || source.initialVoltage === 0);
    this.plain = lazily(() => (empty ? OneState.of(question) : undefined));
    this.rough = lazily(() => (empty ? OneState.of({ ...question, loads: 'any' }) : undefined));
    this.several = lazily(() => (empty ? NetworkSigns.of(question) : undefined));
    const after = modesAfterClosing(compiled, rise);
    this.closing = lazily(() => OneState.of({ ...question, modes: after }));
    this.summed = lazily(() => oneVoltage(compiled, modes, chain, link));
    this.summedAfter = lazily(() => this.summed() && oneVoltage(compiled, after, chain, link));
    this.plainly = lazily(() => plainLoads(compiled, modes));
    this.roughEnd = lazily(() => (empty ? NetworkSigns.of({ ...question, instant: 'end', loads: 'any' }) : undefined));
    this.wakeful = lazily(() => this.loadsAreLeaks());
    this.ended = lazily(() => (empty ? NetworkSigns.of({ ...question, instant: 'end' }) : undefined));
    this.together = lazily(() => {
      // No voltage may fall: see `lump`.
      const rises = this.several() !== undefined || (empty && fedAtOneNode(compiled, highestOf(box), modes));
      return rises ? lump(compiled, box, modes, 'rise', link) : undefined;
    });
  }

  /** One capacitor and plain loads: everything is known. */
  get one(): OneState | undefined {
    return this.plain();
  }

  /** True where the rise knows the accumulators by the sum of their voltages alone. */
  get oneVoltage(): boolean {
    return this.summed();
  }

  /** True where the state after the last relays have closed does so too. */
  get oneVoltageAfter(): boolean {
    return this.summedAfter();
  }

  /** True where all voltages are in proportion to the accumulator's: every load is a resistance. */
  get scales(): boolean {
    return this.plainly();
  }

  /** Signs taken as if every load were a resistance, where that is not proved: they show where to look. */
  get likely(): OneState | undefined {
    return this.one === undefined ? this.rough() : undefined;
  }

  /** Likewise of the end of a rise, whatever the capacitors. */
  likelySteadyVoltage(link: Pair): Directions | undefined {
    return (this.likely ?? this.roughEnd())?.steadyVoltage(link);
  }

  /** Likewise of the time to a ratio: several capacitors take the longer the more there is to fill, and the less is left in the end. */
  likelyTimeToReach(link: Pair, ratio: number, box: Box): Directions | undefined {
    const one = this.likely ?? this.lumped?.state;
    if (one !== undefined) return one.timeToReach(link, ratio, box);
    const steady = this.roughEnd()?.steadyVoltage(link);
    if (steady === undefined) return undefined;
    return (index) => (this.compiled.parameters[index]?.field === 'capacitance' ? 1 : opposite(steady(index)));
  }

  /** The state after the last relays have closed. */
  get after(): OneState | undefined {
    return this.closing();
  }

  /** Several capacitors that come near to being one; absent where there is one. */
  get lumped(): Lump | undefined {
    return this.one === undefined ? this.together() : undefined;
  }

  /**
   * For the voltage over time. A load across the capacitor that draws at every voltage is a leak whatever its law: the voltage rises
   * all the time, and less with more drawn (comparison of two differential equations), so signs are those of a resistance.
   */
  get rising(): OneState | undefined {
    return this.one ?? (this.wakeful() ? this.rough() : undefined);
  }

  /** For the end of the rise, whatever the capacitors. */
  steadyVoltage(link: Pair): Directions | undefined {
    return (this.rising ?? this.several() ?? this.ended())?.steadyVoltage(link);
  }

  /** For the current through a part of the feed, which is largest at the start where no voltage falls. */
  firstCurrent(part: CompiledElement): Directions | undefined {
    return (this.rising ?? (this.lumped === undefined ? undefined : this.several()))?.firstCurrent(part);
  }

  firstPower(part: CompiledElement, box: Box): Directions | undefined {
    return (this.rising ?? (this.lumped === undefined ? undefined : this.several()))?.firstPower(part, box);
  }

  private loadsAreLeaks(): boolean {
    const { capacitors, merged } = planOf(this.compiled, this.modes, this.box.nominal);
    const [first] = capacitors.filter(({ ma, mb }) => ma !== mb);
    if (first === undefined) return false;
    const across = new Set([first.ma, first.mb]);
    return this.compiled.elements.every(({ source, load, a, b, index }) => {
      if (source.kind === 'machine') return this.modes[index] !== Mode.closed;
      if (source.kind !== 'load' || this.modes[index] === Mode.open) return true;
      if (source.startsAbove > 0 || source.stopsBelow > 0) return false;
      return load === 'resistance' || (across.has(merged[a] as number) && across.has(merged[b] as number));
    });
  }
}
