import { fieldNames } from '../field-names.js';
import { figureEvidence } from '../figure-evidence.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { judgeTime } from '../judge-figure.js';
import { measuredAgainst } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'precharge-completes-in-time',
    title: 'A sound rise ends before the timeout, and a hopeless one is ended by it',
    rationale:
      'A rise into a fault never ends by itself and heats the pre-charge resistor for as long as somebody holds the button. A timeout ends it; one that is too short ends sound rises too.',
    parameters: ['threshold'],
    messages: {
      met: 'At worst the rise takes {worst}, below the timeout of {timeout}.',
      violated: 'At worst the rise takes {worst}, but the timeout ends it after {timeout}.',
      never: 'At worst the rise never reaches its threshold, so it ends by the timeout of {timeout} only.',
      undetermined: 'Whether a rise ends in time cannot be told without {fields}.',
      timer: 'A timer ends every rise, sound or not.',
      noPath: 'No path charges the link.',
    },
    remedies: {
      lengthen:
        'Set the timeout to {needed} or more, which leaves a margin of 20 %, if the resistor stands a rise into a short for that long, or lower the pre-charge resistance.',
      reach: 'Cure first why the threshold is not reached.',
    },
    inspect:
      'Time the rise with a stopwatch from the start to the last relay’s click; cut the link off and see the attempt end by itself.',
  },
  check({ circuit, rise, topology }): Outcome {
    const { method, timeout, threshold } = circuit.control.precharge ?? {};
    if (method === 'timer') return { status: 'not-applicable', message: 'timer' };
    const time = rise.timeToThreshold;
    if (time.reason === 'no-path')
      return { status: 'not-applicable', message: 'noPath', causedBy: ['precharge-reaches-threshold'] };
    const evidence = { timeToThreshold: figureEvidence(time), reached: time.reached, timeout: timeout ?? null };
    const elements = rise.resistor === undefined ? topology.prechargePath : [rise.resistor];
    if (timeout === undefined) {
      const missing = [`${circuit.pointer}/control/precharge/timeout`];
      return {
        status: 'undetermined',
        message: 'undetermined',
        values: { fields: fieldNames(circuit, missing) },
        evidence,
        elements,
        missing,
      };
    }
    const { status, missing, worst, search } = judgeTime(time, timeout, true);
    const measured = measuredAgainst({ actual: worst, limit: timeout, side: 'below', unit: 's', search });
    const judged = { ...measured, ...evidence };
    const texts = formatAgainst(worst, timeout, 's');
    const values = {
      worst: texts.value,
      timeout: texts.limit,
      needed: formatQuantity(roundUp(worst / (1 - MARGIN), 2), 's'),
      fields: fieldNames(circuit, missing),
    };
    // A setting that is not stated can lie above the level that the rise was timed to, so it can only last longer.
    if (status === 'met' && threshold === undefined) {
      const open = [`${circuit.pointer}/control/precharge/threshold`];
      const named = { ...values, fields: fieldNames(circuit, open) };
      return {
        status: 'undetermined',
        message: 'undetermined',
        values: named,
        evidence: judged,
        elements,
        missing: open,
      };
    }
    if (status !== 'violated') return { status, message: status, values, evidence: judged, elements, missing };
    if (Number.isFinite(worst))
      return { status, message: 'violated', values, evidence: judged, elements, remedy: 'lengthen' };
    const causedBy = ['precharge-reaches-threshold', 'precharge-reaches-setting'];
    return { status, message: 'never', values, evidence: judged, elements, remedy: 'reach', causedBy };
  },
};
