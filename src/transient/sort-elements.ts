import { type CompiledCircuit, type CompiledElement, Mode, type Modes, type Values } from './compiled-circuit.js';
import { FADINGS } from './power-current.js';
import type { PlannedBranch, PlannedCapacitor, PlannedCurrent } from './planned.js';

/** A part of a plan before its nodes are merged: `ma` and `mb` are still open. */
export type Unmerged<T> = { -readonly [K in keyof T]: T[K] };

/** What each element of a switch state is to the solution. */
export class SortedElements {
  readonly branches: Unmerged<PlannedBranch>[] = [];
  readonly capacitors: Unmerged<PlannedCapacitor>[] = [];
  readonly currents: Unmerged<PlannedCurrent>[] = [];
  /** Without resistance: they join their nodes. */
  readonly ties: CompiledElement[] = [];
  /** Rate of each drive channel, 1/s; channel 0 is constant. */
  readonly channelRates: number[] = [0];
  /** The circuit's nodes, then one inside each capacitor with ESR. */
  nodeCount: number;

  constructor(
    compiled: CompiledCircuit,
    modes: Modes,
    private readonly values: Values,
  ) {
    this.nodeCount = compiled.nodes.size;
    let position = 0;
    for (const element of compiled.elements) {
      const mode = modes[element.index] as number;
      if (mode !== Mode.absent) this.sort(element, mode, position);
      if (element.kind === 'capacitor') position += 1;
    }
  }

  private sort(element: CompiledElement, mode: number, position: number): void {
    switch (element.kind) {
      case 'accumulator':
        this.resistance(element, element.secondary);
        break;
      case 'capacitor':
        this.capacitor(element, position);
        break;
      case 'contact':
        if (mode === Mode.closed) this.resistance(element, element.primary);
        else if (element.secondary >= 0) this.resistance(element, element.secondary);
        break;
      case 'load':
        if (mode === Mode.closed) this.resistance(element, element.primary);
        else if (mode === Mode.constant) this.current(element);
        break;
      case 'machine':
        if (mode === Mode.closed) this.resistance(element, element.secondary, this.machineChannel(element));
        break;
      case 'connector':
      case 'disconnect':
        if (mode === Mode.closed) this.resistance(element, element.primary);
        break;
      default:
        this.resistance(element, element.primary);
    }
  }

  private resistance(element: CompiledElement, parameter: number, channel = 0): void {
    const { a, b } = element;
    if ((this.values[parameter] as number) > 0 || element.kind === 'machine')
      this.branches.push({ element, a, b, ma: -1, mb: -1, resistance: parameter, channel });
    else this.ties.push(element);
  }

  private capacitor(element: CompiledElement, position: number): void {
    const { a, b, secondary } = element;
    let inside = a;
    if ((this.values[secondary] as number) > 0) {
      inside = this.nodeCount;
      this.nodeCount += 1;
      this.branches.push({ element, a, b: inside, ma: -1, mb: -1, resistance: secondary, channel: 0 });
    }
    this.capacitors.push({ element, position, a: inside, b, ma: -1, mb: -1 });
  }

  private current(element: CompiledElement): void {
    const channel = element.load === 'power' ? this.channelRates.length : 0;
    // The rates of a constant-power load's channels are told with each solution.
    if (channel > 0) this.channelRates.push(...new Array<number>(FADINGS).fill(0));
    this.currents.push({ element, channel, ma: -1, mb: -1 });
  }

  private machineChannel({ source }: CompiledElement): number {
    if (source.kind !== 'machine' || source.decay === undefined) return 0;
    return this.channelRates.push(1 / source.decay) - 1;
  }
}
