import { agreed } from '../../transient/agreed.js';
import type { Direction, Directions } from '../../transient/bounds.js';
import { type Box, highestOf } from '../../transient/box.js';
import type { CompiledCircuit, CompiledElement, Modes } from '../../transient/compiled-circuit.js';
import { fedAtOneNode } from '../../transient/fed-at-one-node.js';
import { leakPort, wakingLoads } from '../../transient/leak-port.js';
import { type Lump, lump } from '../../transient/lump.js';
import { NetworkSigns, opposite } from '../../transient/network-signs.js';
import type { Pair } from '../../transient/sign-question.js';
import { OneState } from '../../transient/one-state.js';
import { type Chain, oneVoltage } from '../../transient/one-voltage.js';
import { plainLoads } from '../../transient/plain-loads.js';
import { slowestMode } from '../../transient/slowest-mode.js';
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
  private readonly grows: () => boolean;
  private readonly ended: () => NetworkSigns | undefined;
  private readonly together: () => Lump | undefined;
  private readonly roughEnd: () => NetworkSigns | undefined;
  private readonly leaks: () => CompiledElement | undefined;
  private readonly roughly: () => NetworkSigns | undefined;
  private readonly slowest: () => Directions | undefined;
  private readonly waking: () => readonly CompiledElement[] | undefined;
  private readonly plainly: () => boolean;
  private readonly summed: () => boolean;
  private readonly summedAfter: () => boolean;

  constructor(
    private readonly compiled: CompiledCircuit,
    private readonly box: Box,
    rise: RiseState,
    private readonly link: Pair,
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
    this.leaks = lazily(() => (empty ? leakPort(compiled, box, modes) : undefined));
    this.waking = lazily(() => (empty ? wakingLoads(compiled, box, modes) : undefined));
    this.roughly = lazily(() => (empty ? NetworkSigns.of({ ...question, loads: 'any' }) : undefined));
    this.slowest = lazily(() => (empty ? slowestMode(compiled, box, modes, link) : undefined));
    this.ended = lazily(() => (empty ? NetworkSigns.of({ ...question, instant: 'end' }) : undefined));
    this.grows = lazily(() => this.several() !== undefined || (empty && fedAtOneNode(compiled, highestOf(box), modes)));
    this.together = lazily(() => (this.rises ? lump(compiled, box, modes, 'rise', link) : undefined));
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
    if (this.likely !== undefined) return this.likely.steadyVoltage(link);
    return this.leaks() === undefined ? this.roughEnd()?.steadyVoltage(link) : this.leakyEnd(link);
  }

  /** Likewise of the time to a ratio: several capacitors take the longer the more there is to fill, and the less is left in the end. */
  likelyTimeToReach(link: Pair, ratio: number, box: Box): Directions | undefined {
    const one = this.likely ?? this.lumped?.state;
    if (one !== undefined) {
      const told = one.timeToReach(link, ratio, box);
      // What a capacitor's own resistance does is not always told; it is likely to delay.
      return (index) => told(index) ?? (this.compiled.parameters[index]?.field === 'esr' ? 1 : undefined);
    }
    const steady = this.roughEnd()?.steadyVoltage(link);
    if (steady === undefined) return undefined;
    return (index) => (this.compiled.parameters[index]?.field === 'capacitance' ? 1 : opposite(steady(index)));
  }

  /** The state after the last relays have closed. */
  get after(): OneState | undefined {
    return this.closing();
  }

  /** True where no voltage ever falls, so that nothing carries more than is fed in. */
  get rises(): boolean {
    return this.grows();
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
    if (this.one !== undefined) return this.one;
    const rough = this.leaks() === undefined ? undefined : this.rough();
    return rough?.isTerminals(this.link) === true ? rough : undefined;
  }

  /**
   * Loads that wake in the rise, and the directions of its time whatever their laws, where that can be told: of one capacitor that the link
   * is, with the pack's voltage left out.
   */
  wakingRise(ratio: number, box: Box): { loads: readonly CompiledElement[]; directions: Directions } | undefined {
    const loads = this.waking();
    const rough = loads === undefined ? undefined : this.rough();
    if (loads === undefined || rough?.isTerminals(this.link) !== true) return undefined;
    return { loads, directions: rough.timeToReach(this.link, ratio, box) };
  }

  /** For the end of the rise, whatever the capacitors. */
  steadyVoltage(link: Pair): Directions | undefined {
    return (this.rising ?? this.several() ?? this.ended())?.steadyVoltage(link) ?? this.leakyEnd(link);
  }

  /**
   * With leaks: each voltage of the network follows the port's, so a part moves it by itself, with the loads as the resistances
   * that they come to there, and by what it does to the port and so to those. Where the two agree the sign is theirs.
   */
  private leakyEnd(link: Pair): Directions | undefined {
    const port = this.leaks();
    const signs = this.roughEnd();
    if (port === undefined || signs === undefined) return undefined;
    const own = signs.steadyVoltage(link);
    const through = opposite(own(port.primary));
    const ofPort = signs.steadyVoltage(port);
    return (index) => agreed(own(index), times(through, ofPort(index)));
  }

  /** For the current through a part of the feed, which is largest at the start where no voltage falls. */
  firstCurrent(part: CompiledElement): Directions | undefined {
    return this.starting?.firstCurrent(part);
  }

  firstPower(part: CompiledElement, box: Box): Directions | undefined {
    return this.starting?.firstPower(part, box);
  }

  private get starting(): NetworkSigns | undefined {
    if (this.rising !== undefined) return this.rising;
    if (this.lumped !== undefined) return this.several();
    // Without a leak nothing is known of how such a network rises.
    return this.leaks() === undefined ? undefined : this.roughly();
  }

  /** Likewise where that is not proved. */
  get likelyStart(): NetworkSigns | undefined {
    return this.likely ?? this.roughly();
  }

  /** Likely of the slowest time constant that the link shows: of several, one that hardly shows may be left out at some values only. */
  get likelyTimeConstant(): Directions | undefined {
    return this.likely?.timeConstant() ?? this.slowest();
  }

  /** Proved of the slowest time constant that several capacitors have, whether the link shows it or not. */
  get slowestMode(): Directions | undefined {
    return this.scales ? this.slowest() : undefined;
  }
}

function times(one: Direction, other: Direction): Direction {
  return one === undefined || other === undefined ? undefined : ((one * other) as Direction);
}
