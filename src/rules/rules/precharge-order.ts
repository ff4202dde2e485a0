import type { PrechargeControl, ResolvedCircuit } from '../../circuit/model.js';
import type { LastClosure } from '../../facts/facts.js';
import { type ClosingMoment, closingMoment } from '../closing-moment.js';
import { fieldNames } from '../field-names.js';
import { figureEvidence } from '../figure-evidence.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { type Judgement, judgeFigure } from '../judge-figure.js';
import { measuredAgainst } from '../measured-against.js';
import { riseLoads } from '../rise-loads.js';
import type { Outcome, Rule } from '../rule.js';

/** Relative; by which an instant that is found by its voltage may lie beside that voltage, and a value beside itself: rounding. */
const ON_LEVEL = 1e-9;

export const rule: Rule = {
  meta: {
    id: 'precharge-order',
    title: 'The last isolation relay closes only once the link is charged',
    rationale:
      'The contact that closes last takes whatever voltage is still missing across it. Closed early it meets a discharged capacitor, and the current welds it.',
    parameters: ['threshold'],
    messages: {
      met: 'In the order {source} the last isolation relay closes with the link at {worst} or above; {level} is required.',
      default: 'No order is stated, so the default order was judged: the last isolation relay closes at the threshold.',
      early:
        'In the order {source} the last isolation relay closes with the link at {worst} at worst; {level} is required.',
      unprepared:
        'In the order {source} the last isolation relay closes before the pre-charge path is complete, with the link at {worst} at worst; {level} is required.',
      timed:
        'In the order {source} the last isolation relay closes {elapsed} after the rise begins, with the link at {worst} at worst; {level} is required.',
      sag: 'In the order {source} the pre-charge path opens before the last isolation relay closes, and the link sags from {highest} to {worst} at worst by then{drawing}; {level} is required.',
      dips: 'In the order {source} the link reaches {level}, sags to {lowest} at worst{drawing}, and only recovers before the last isolation relay closes; once reached, {level} must be kept.',
      undetermined:
        'In the order {source} the last isolation relay closes with the link at {level} or above with the tolerances stated, but only at {worst} with those assumed for {fields}.',
      dipsUndetermined:
        'In the order {source} the link keeps {level} once reached with the tolerances stated, but sags to {lowest} with those assumed for {fields}{drawing}.',
      unknown: 'No order is stated, and what the default order waits for cannot be told without {fields}.',
      none: 'No isolation relay is bridged by a pre-charge branch.',
      neverCloses: 'In the order {source} the last isolation relay never closes.',
    },
    remedies: {
      keep: 'Keep the pre-charge relay closed from the start until the last isolation relay has closed.',
      wait: 'Let the last isolation relay wait until the link has been measured at {level} or above, and open the pre-charge relay only after it has closed.',
    },
    inspect: 'Listen to the order of the clicks and watch the link voltage at the last one.',
  },
  check(facts, ruleset): Outcome {
    const { circuit, topology, sequence, lastClosure } = facts;
    const { threshold } = ruleset.conditions;
    const { steps } = sequence;
    const elements = topology.bridgedRelays;
    const source = sequence.source === 'stated' ? 'stated' : 'taken by default';
    if (elements.length === 0) {
      return { status: 'not-applicable', message: 'none', causedBy: ['precharge-reaches-threshold'] };
    }
    const waitsForVoltage = steps.some(
      ({ close, when }) => when !== undefined && close.some((id) => elements.includes(id)),
    );
    const order = { path: topology.prechargePath, source: sequence.source, steps };
    const unknown = sequence.source === 'default' ? defaultWaitsFor(circuit) : [];
    if (unknown.length > 0) {
      const fields = fieldNames(circuit, unknown);
      const causedBy = ['precharge-compares-voltages'];
      return {
        status: 'undetermined',
        message: 'unknown',
        values: { fields },
        evidence: order,
        elements,
        missing: unknown,
        causedBy,
      };
    }
    // The default order waits for the car's own setting, which has a rule of its own.
    if (sequence.source === 'default' && (waitsForVoltage || lastClosure === undefined)) {
      return { status: 'met', message: 'default', evidence: order, elements };
    }
    if (lastClosure === undefined || lastClosure.ratio.reason === 'never') {
      const causedBy = ['precharge-reaches-threshold', 'precharge-reaches-setting'];
      return { status: 'not-applicable', message: 'neverCloses', values: { source }, causedBy };
    }
    const limit = threshold - ON_LEVEL;
    const judgement = judgeFigure(lastClosure.ratio, { side: 'above', limit, strict: false });
    const moment = closingMoment(steps, topology, threshold);
    const texts = formatAgainst(Math.max(0, judgement.worst), threshold, '%');
    const loads = riseLoads(facts);
    const values = {
      source,
      worst: texts.value,
      level: texts.limit,
      elapsed: moment.kind === 'timed' ? formatQuantity(moment.elapsed, 's') : '',
      highest: formatQuantity(lastClosure.highestRatio ?? 0, '%'),
      fields: fieldNames(circuit, judgement.missing),
      drawing: loads.drawing,
    };
    const evidence = { ...evidenceOf(lastClosure, judgement, threshold), ...order };
    const { status, missing } = judgement;
    if (status !== 'violated') {
      const kept = judgeFigure(lastClosure.lowestRatio, { side: 'above', limit, strict: false });
      if (kept.status === 'violated' || (kept.status === 'undetermined' && status === 'met')) {
        const dips = sagOf(circuit, lastClosure, kept, threshold);
        return {
          ...dips,
          values: { ...values, ...dips.values },
          evidence: { ...evidence, ...dips.evidence },
          elements: [...elements, ...loads.ids],
        };
      }
    }
    if (status === 'undetermined') return { status, message: 'undetermined', values, evidence, elements, missing };
    if (status === 'met') {
      return { status, message: moment.kind === 'timed' ? 'timed' : 'met', values, evidence, elements };
    }
    const causedBy = causesOf(moment, sequence.source, circuit.control.precharge ?? {});
    const message = wrongIn(moment);
    const named = message === 'sag' ? [...elements, ...loads.ids] : elements;
    return { status, message, values, evidence, elements: named, remedy: 'wait', causedBy };
  },
};

function evidenceOf({ step, time, ratio, highestRatio }: LastClosure, { worst, search }: Judgement, threshold: number) {
  return {
    ...measuredAgainst({ actual: Math.max(0, worst), limit: threshold, side: 'above', unit: 'ratio', search }),
    closingStep: step,
    closingTime: figureEvidence(time),
    ratio: figureEvidence(ratio),
    highestRatio,
  };
}

/** Pointers of what the default order depends on: whether a setting or a timer has the last relay close, and the timer's delay. */
function defaultWaitsFor({ control, pointer }: ResolvedCircuit): readonly string[] {
  const { method, delay } = control.precharge ?? {};
  const base = `${pointer}/control/precharge`;
  if (method === undefined) return [`${base}/method`];
  return method === 'timer' && delay === undefined ? [`${base}/delay`] : [];
}

/** The level is there again when the last relay closes, but has not been kept. */
function sagOf(circuit: ResolvedCircuit, { lowestRatio }: LastClosure, kept: Judgement, level: number) {
  const { status, missing, worst, search } = kept;
  const lowest = Math.max(0, worst);
  const values = { lowest: formatAgainst(lowest, level, '%').value, fields: fieldNames(circuit, missing) };
  const evidence = {
    ...measuredAgainst({ actual: lowest, limit: level, side: 'above', unit: 'ratio', search }),
    lowestRatio: figureEvidence(lowestRatio),
  };
  return status === 'violated'
    ? { status, message: 'dips', values, evidence, remedy: 'keep' }
    : { status, message: 'dipsUndetermined', values, evidence, missing };
}

function wrongIn({ kind }: ClosingMoment): string {
  return kind === 'unprepared' || kind === 'sag' || kind === 'timed' ? kind : 'early';
}

/** An order that waits for too low a level, or for nothing, is wrong by itself, unless it only does what is set. */
function causesOf(
  moment: ClosingMoment,
  source: 'stated' | 'default',
  { method, threshold, delay }: PrechargeControl,
): readonly string[] {
  const byTimer = ['precharge-compares-voltages', 'precharge-reaches-threshold'];
  if (source === 'default') return byTimer;
  if (moment.kind === 'unprepared') return [];
  const asSet = (value: number, set: number | undefined): boolean =>
    set !== undefined && Math.abs(value - set) <= ON_LEVEL * set;
  if (moment.kind === 'early') {
    return method !== 'timer' && asSet(moment.ratio, threshold) ? ['precharge-setting'] : [];
  }
  const byTheTimer = moment.kind === 'timed' && method === 'timer' && asSet(moment.elapsed, delay);
  return byTheTimer ? byTimer : ['precharge-reaches-threshold'];
}
