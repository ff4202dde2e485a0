import type { PrechargeControl } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import { longestTimedRise, shortestTimer } from '../../limits/longest-timed-rise.js';
import { fieldNames } from '../field-names.js';
import { figureEvidence } from '../figure-evidence.js';
import { formatQuantity } from '../format-quantity.js';
import { judgeTime } from '../judge-figure.js';
import { measuredAgainst } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import { riseLoads } from '../rise-loads.js';
import type { Outcome, Rule } from '../rule.js';
import type { Ruleset } from '../ruleset.js';

export const rule: Rule = {
  meta: {
    id: 'precharge-compares-voltages',
    title: 'Measured voltages decide that the link is charged',
    rationale:
      'A timer closes the last relay after a fault just as well as after a rise. A comparison with a fixed voltage is wrong for every state of charge but one. And a comparison that senses the wrong nodes is satisfied although a capacitor is empty.',
    parameters: ['prechargeDecision', 'threshold'],
    messages: {
      met: 'The link is compared with the measured accumulator voltage, and in no separation state is the comparison deceived.',
      timer: 'A timer decides that the link is charged; this ruleset wants the measured voltages compared.',
      timerShort:
        'The timer runs for {delay}; with the rise taking {rise} to {level} at worst it must run for at least {needed}.',
      timerNever: 'The timer runs for {delay}, but at worst the link never reaches {level}{drawing}.',
      timerMet:
        'The timer runs for {delay}; with the rise taking {rise} to {level} at worst at least {needed} is required.',
      timerUndetermined: 'Whether the timer runs long enough for the rise to {level} cannot be told without {fields}.',
      fixed: 'The link is compared with a fixed voltage; it must be compared with the accumulator’s actual voltage.',
      deceived:
        'In the state {state} the comparison is satisfied (it senses {sensed}) while the capacitor {capacitor} stands at {actual} of the accumulator voltage.',
      undetermined: 'Whether measured voltages decide cannot be told without {fields}.',
    },
    remedies: {
      compare:
        'Sense both voltages, the accumulator’s at its own poles and the link’s at its capacitor, and compare the two.',
      moveSense:
        'Take the link’s sense leads to the terminals of {capacitor}, behind every contact, plug and disconnect.',
      lengthen:
        'Let the timer run for at least {needed}; {preferred} leaves a margin of 20 %. Or compare measured voltages instead.',
    },
    inspect:
      'Follow both pairs of sense leads to where they end. Start with the link cut off, an official present: the last relay must not close.',
  },
  check(facts, ruleset): Outcome {
    const control = facts.circuit.control.precharge ?? {};
    if (control.method === 'timer') return checkTimer(facts, ruleset, control);
    const evidence = {
      method: control.method ?? null,
      reference: control.reference ?? null,
      senseStates: facts.senseStates,
    };
    if (control.reference === 'fixed') {
      return {
        status: 'violated',
        message: 'fixed',
        evidence,
        elements: facts.topology.prechargeRelays,
        remedy: 'compare',
      };
    }
    const deceived = facts.senseStates.find((state) => state.deceived);
    if (deceived !== undefined) {
      const values = {
        state: deceived.state,
        capacitor: deceived.capacitor,
        sensed: formatQuantity(deceived.sensedRatio ?? 0, '%'),
        actual: formatQuantity(deceived.capacitorRatio, '%'),
      };
      return {
        status: 'violated',
        message: 'deceived',
        values,
        evidence: {
          ...measuredAgainst({
            actual: deceived.capacitorRatio,
            limit: ruleset.conditions.threshold,
            side: 'above',
            unit: 'ratio',
          }),
          ...evidence,
        },
        elements: [deceived.capacitor],
        remedy: 'moveSense',
      };
    }
    const wanted = ['method', 'reference', 'accumulatorSense', 'linkSense'] as const;
    const missing = wanted
      .filter((field) => control[field] === undefined)
      .map((field) => `${facts.circuit.pointer}/control/precharge/${field}`);
    if (missing.length === 0)
      return { status: 'met', message: 'met', evidence, elements: facts.topology.prechargeRelays };
    const values = { fields: fieldNames(facts.circuit, missing) };
    return { status: 'undetermined', message: 'undetermined', values, evidence, missing };
  },
};

function checkTimer(facts: Facts, ruleset: Ruleset, { delay }: PrechargeControl): Outcome {
  if (ruleset.parameters.prechargeDecision.value === 'measured-voltage') {
    const elements = facts.topology.prechargeRelays;
    return {
      status: 'violated',
      message: 'timer',
      evidence: { method: 'timer', delay: delay ?? null },
      elements,
      remedy: 'compare',
    };
  }
  const level = formatQuantity(ruleset.conditions.threshold, '%');
  const time = facts.rise.timeTo(ruleset.conditions.threshold);
  const evidence = { method: 'timer', delay: delay ?? null, timeToLevel: figureEvidence(time) };
  if (delay === undefined) {
    const missing = [`${facts.circuit.pointer}/control/precharge/delay`];
    const values = { level, fields: fieldNames(facts.circuit, missing) };
    return { status: 'undetermined', message: 'timerUndetermined', values, evidence, missing };
  }
  const { status, missing, worst, notComputable } = judgeTime(time, longestTimedRise(delay), false);
  const longEnough = shortestTimer(worst);
  const loads = riseLoads(facts);
  const values = {
    level,
    delay: formatQuantity(delay, 's'),
    rise: formatQuantity(worst, 's'),
    needed: formatQuantity(longEnough, 's'),
    preferred: formatQuantity(roundUp(longEnough / (1 - MARGIN), 2), 's'),
    fields: fieldNames(facts.circuit, missing),
    drawing: loads.drawing,
  };
  if (status === 'undetermined' || notComputable)
    return { status, message: 'timerUndetermined', values, evidence, missing };
  const judged = {
    ...measuredAgainst({ actual: delay, limit: longEnough, side: 'above', unit: 's' }),
    ...evidence,
  };
  if (status === 'met') return { status, message: 'timerMet', values, evidence: judged };
  return Number.isFinite(worst)
    ? { status, message: 'timerShort', values, evidence: judged, remedy: 'lengthen' }
    : {
        status,
        message: 'timerNever',
        values,
        evidence: judged,
        elements: loads.ids,
        remedy: 'compare',
        causedBy: ['precharge-reaches-threshold'],
      };
}
