import type { Resistor } from '../circuit/model.js';
import { once, type Thermal, thermalOf } from '../facts/figures/thermal-peak.js';
import type { CompiledCircuit, Values } from '../transient/compiled-circuit.js';
import { ExponentialSum } from '../transient/exponential-sum.js';
import { piecesOf } from '../transient/piecewise.js';
import { ThermalHistory } from '../transient/thermal-history.js';
import type { Segment, Timeline, TimelineEvent } from '../transient/timeline.js';
import { type Probe, probeUnits } from './probe.js';
import type { TransientsAnswer } from './transients-schema.js';

type Signal = TransientsAnswer['signals'][number];

interface Reading {
  readonly value: number | null;
  readonly reason: string | null;
}

/** Reads probes off a run. */
export class ProbeReader {
  private readonly histories = new Map<number, ThermalHistory>();
  private readonly sums = new Map<Segment, Map<string, ExponentialSum | string>>();

  constructor(
    private readonly compiled: CompiledCircuit,
    private readonly values: Values,
    private readonly timeline: Timeline,
  ) {}

  /** The probe's values at the instants, which do not fall. */
  signal(probe: Probe, times: readonly number[]): Signal {
    const readings = times.map((time) => this.readAt(probe, time));
    const answer: Signal = {
      id: probe.id,
      quantity: probe.quantity,
      unit: probeUnits[probe.quantity],
      values: readings.map(({ value }) => value),
    };
    return readings.some(({ reason }) => reason !== null)
      ? { ...answer, reasons: readings.map(({ reason }) => reason) }
      : answer;
  }

  /** At an instant; null where there is no value. */
  at(probe: Probe, time: number): number | null {
    return this.readAt(probe, time).value;
  }

  /** Just before an event; null where there is no value. */
  before(probe: Probe, event: TimelineEvent): number | null {
    const segment = this.timeline.segments[event.segment - 1];
    if (segment === undefined) return this.after(probe, event);
    return this.read(probe, segment, event.time - segment.start, event.time).value;
  }

  after(probe: Probe, event: TimelineEvent): number | null {
    const segment = this.timeline.segments[event.segment];
    return segment === undefined ? null : this.read(probe, segment, 0, event.time).value;
  }

  private readAt(probe: Probe, time: number): Reading {
    const segment = this.segmentAt(time);
    return this.read(probe, segment, time - segment.start, time);
  }

  /** The last segment that has begun: at a switching instant the one just after it. */
  private segmentAt(time: number): Segment {
    const segment = this.timeline.segments.findLast(({ start }) => start <= time) ?? this.timeline.segments[0];
    if (segment === undefined) throw new Error('a run has at least one segment');
    return segment;
  }

  private read(probe: Probe, segment: Segment, elapsed: number, time: number): Reading {
    if (probe.quantity === 'voltage') return at(this.voltage(segment, probe.nodes), elapsed);
    const element = this.compiled.byId.get(probe.element);
    if (element === undefined) return { value: null, reason: 'no-such-element' };
    if (probe.quantity === 'current') return at(this.current(segment, element.index), elapsed);
    if (probe.quantity === 'power') {
      const current = at(this.current(segment, element.index), elapsed);
      if (current.value === null || current.value === 0) return current;
      const voltage = at(this.voltage(segment, element.source.nodes), elapsed);
      return voltage.value === null ? voltage : { value: voltage.value * current.value, reason: null };
    }
    return this.temperature(element.source as Resistor, element.index, time);
  }

  private temperature(resistor: Resistor, index: number, time: number): Reading {
    const thermal = thermalOf(resistor, this.compiled.circuit.ambientMax);
    if ('missing' in thermal) return { value: null, reason: 'not-stated' };
    const history = this.histories.get(index) ?? this.history(thermal, index);
    this.histories.set(index, history);
    return { value: thermal.ambient + history.riseAt(time), reason: null };
  }

  private history({ resistance, capacitance }: Thermal, index: number): ThermalHistory {
    const ohms = this.values[this.compiled.elements[index]?.primary ?? -1] ?? 0;
    const current = piecesOf(this.timeline, (solution) => solution.current(index));
    return new ThermalHistory({ resistance, capacitance, ohms }, once(current, Infinity));
  }

  private voltage(segment: Segment, nodes: readonly [string, string]): ExponentialSum | string {
    const a = this.compiled.nodes.get(nodes[0]) ?? -1;
    const b = this.compiled.nodes.get(nodes[1]) ?? -1;
    return this.once(segment, `v ${String(a)} ${String(b)}`, () => segment.solution.voltage(a, b));
  }

  private current(segment: Segment, index: number): ExponentialSum | string {
    return this.once(segment, `i ${String(index)}`, () => segment.solution.current(index));
  }

  private once(segment: Segment, key: string, make: () => ExponentialSum | string): ExponentialSum | string {
    const own = this.sums.get(segment) ?? new Map<string, ExponentialSum | string>();
    this.sums.set(segment, own);
    const known = own.get(key) ?? make();
    own.set(key, known);
    return known;
  }
}

function at(signal: ExponentialSum | string, elapsed: number): Reading {
  return signal instanceof ExponentialSum
    ? { value: signal.at(elapsed), reason: null }
    : { value: null, reason: signal };
}
