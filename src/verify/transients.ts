import { type ResolvedCircuit, type Step } from '../circuit/model.js';
import { withEventMeter } from '../facts/figures/event-meter.js';
import { accumulatorChain, openCircuitVoltage } from '../facts/figures/open-circuit.js';
import { defaultSequence } from '../facts/topology/default-sequence.js';
import { topology } from '../facts/topology/topology.js';
import { accuracyOf } from '../transient/accuracy.js';
import { compileCircuit, nominalValues } from '../transient/compiled-circuit.js';
import { fadingSpan } from '../transient/fading-span.js';
import { runTimeline, type Timeline } from '../transient/timeline.js';
import { openConditions } from './open-conditions.js';
import type { Probe } from './probe.js';
import { ProbeReader } from './probe-reader.js';
import { provenance } from './provenance.js';
import { runFigures } from './run-figures.js';
import { sequenceAnswer } from './sequence-answer.js';
import type { TransientsAnswer, TransientsInput } from './transients-schema.js';

/** s that a record lasts where nothing in the circuit ever changes. */
const STILL = 1;

/**
 * Signals of a circuit over time, at nominal values.
 * @throws CircuitFault where the circuit would need infinite current
 */
export function transients({ circuit: given, sequence, probes, instants, event }: TransientsInput): TransientsAnswer {
  const conditions = { ...openConditions, threshold: event?.parameters.threshold ?? openConditions.threshold };
  const parts = topology(given, conditions);
  const circuit = withEventMeter(given, parts, event?.meterResistance);
  const stated = sequence ?? given.control.sequence;
  const steps = stated ?? defaultSequence(circuit, parts, conditions, { release: true });
  const compiled = compileCircuit(circuit);
  const values = nominalValues(compiled);
  const open = openCircuitVoltage(accumulatorChain(compiled, parts), values);
  const run = (until: number): Timeline => runTimeline({ compiled, values, steps, until, openCircuitVoltage: open });
  const whole = run(Infinity);
  const times = 'times' in instants ? instants.times : spread(instants.duration ?? span(whole), instants.samples);
  const end = times.at(-1) ?? 0;
  // A run that repeats itself for ever ends with its first round; the record has every one up to its own end.
  const timeline = whole.repeatsFrom === undefined ? whole : run(end);
  const reader = new ProbeReader(compiled, values, timeline);
  const assumptions =
    stated === undefined && event?.parameters.threshold === undefined ? thresholdAssumption(given) : [];
  return {
    time: [...times],
    signals: probes.map((probe) => reader.signal(probe, times)),
    events: timeline.events
      .filter((each) => each.time <= end)
      .map((each) => {
        const { time, before, after } = instantOf(each, probes, reader, end);
        const { step, opened, closed, energyLost } = each;
        const moved = { opened: [...opened], closed: [...closed] };
        return { time, step, ...moved, before, after, energyLost, ...noteOf(each, steps) };
      }),
    figures: runFigures(compiled, values, whole, {
      record: timeline,
      openCircuit: open,
      parts,
      threshold: given.control.precharge?.threshold ?? conditions.threshold,
      until: end,
    }),
    sequence: sequenceAnswer(steps, stated === undefined ? 'default' : 'stated'),
    provenance: provenance({
      circuit: given,
      assumptions,
      accuracy: accuracyOf(compiled),
      further: { event, probes, steps, times },
    }),
  };
}

type EventAnswer = TransientsAnswer['events'][number];

/** What never happens has no instant of its own: it is told at the record's end, by which it had not come. */
function instantOf(
  event: Timeline['events'][number],
  probes: readonly Probe[],
  reader: ProbeReader,
  end: number,
): Pick<EventAnswer, 'time' | 'before' | 'after'> {
  const valuesBy = (read: (probe: Probe) => number | null): EventAnswer['before'] =>
    probes.map((probe) => ({ id: probe.id, value: read(probe) }));
  if (event.skipped === true) {
    const values = valuesBy((probe) => reader.at(probe, end));
    return { time: end, before: values, after: values };
  }
  return {
    time: event.time,
    before: valuesBy((probe) => reader.before(probe, event)),
    after: valuesBy((probe) => reader.after(probe, event)),
  };
}

function noteOf(event: Timeline['events'][number], steps: readonly Step[]): { note?: string } {
  if (event.skipped === true) {
    const count = steps.length - (event.step ?? 0);
    return {
      note: `The condition of step ${String(event.step)} is never met, not even after the end of this record, so ${count === 1 ? 'it' : `it and the ${String(count - 1)} after it`} did not run.`,
    };
  }
  return event.changed.length > 0 ? { note: `Changed behaviour: ${event.changed.join(', ')}.` } : {};
}

function thresholdAssumption(circuit: ResolvedCircuit): { pointer: string; assumed: string }[] {
  if (circuit.control.precharge?.threshold !== undefined) return [];
  return [
    {
      pointer: `${circuit.pointer}/control/precharge/threshold`,
      assumed: `${String(openConditions.threshold)}: not stated`,
    },
  ];
}

function spread(duration: number, samples: number): number[] {
  return Array.from({ length: samples }, (_, k) => (duration * k) / (samples - 1));
}

/** s, to the last event and on until what follows it has faded to 1 %. */
function span(timeline: Timeline): number {
  const last = timeline.segments.at(-1);
  if (last === undefined) return STILL;
  const length = last.start + fadingSpan(last.solution.rates);
  return length > 0 ? length : STILL;
}
