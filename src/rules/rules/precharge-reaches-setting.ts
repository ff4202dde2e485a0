import type { Facts } from '../../facts/facts.js';
import { limit as largestResistance } from '../../limits/limits/precharge-resistance-max-setting.js';
import { fieldNames } from '../field-names.js';
import { figureEvidence } from '../figure-evidence.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { judgeFigure } from '../judge-figure.js';
import { largestPrechargeResistance, preferredPrechargeResistance } from '../largest-precharge-resistance.js';
import { measuredAgainst } from '../measured-against.js';
import { riseLoads, settlesText } from '../rise-loads.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'precharge-reaches-setting',
    title: 'The link charges above the threshold as set',
    rationale:
      'A threshold set with a margin above the book’s level is good, but if the link settles below it the comparison is never satisfied and the car does not start, or starts on a cool day only.',
    parameters: ['threshold'],
    messages: {
      met: 'At worst the link {settles} {worst}{drawing}; the comparison may ask for {needed}.',
      violated:
        'At worst the link {settles} {worst}{drawing}, but the comparison may ask for {needed} and then is never satisfied.',
      undetermined: 'Whether the link gets above what the comparison may ask for cannot be told without {fields}.',
      timer: 'A timer decides, so no voltage has to be reached for it.',
      noPath: 'No path charges the link.',
    },
    remedies: {
      match:
        'Set the threshold, its error included, below {ceiling} ({preferred} lies midway between that and the book’s level); or {reduce}.',
      load: 'No threshold that guarantees the book’s level, its error included, is reached as it is: {reduce}.',
    },
    inspect: 'Watch the link voltage during pre-charge settle, and compare it with the threshold that is set.',
  },
  check(facts, ruleset): Outcome {
    const { circuit, rise, topology } = facts;
    const { method, threshold, comparisonError } = circuit.control.precharge ?? {};
    const base = `${circuit.pointer}/control/precharge`;
    if (method === 'timer') return { status: 'not-applicable', message: 'timer' };
    if (rise.steadyRatio.reason === 'no-path') {
      return { status: 'not-applicable', message: 'noPath', causedBy: ['precharge-reaches-threshold'] };
    }
    const notStated = [
      ...(threshold === undefined ? [`${base}/threshold`] : []),
      ...(comparisonError === undefined ? [`${base}/comparisonError`] : []),
    ];
    const needed = (threshold ?? 0) + (comparisonError ?? 0);
    const { status, missing, worst, search } = judgeFigure(rise.steadyRatio, {
      side: 'above',
      limit: needed,
      strict: true,
    });
    const evidence = {
      ...measuredAgainst({ actual: Math.max(0, worst), limit: needed, side: 'above', unit: 'ratio', search }),
      path: topology.prechargePath,
      steadyRatio: figureEvidence(rise.steadyRatio),
      threshold: threshold ?? null,
      comparisonError: comparisonError ?? null,
    };
    const loads = riseLoads(facts);
    const carriers = rise.resistor === undefined ? topology.prechargePath : [rise.resistor];
    const elements = [...carriers, ...loads.ids];
    const open = [...notStated, ...missing];
    // An error not stated can only make it worse.
    if (status === 'undetermined' || (status === 'met' && notStated.length > 0)) {
      const values = { fields: fieldNames(circuit, open) };
      return { status: 'undetermined', message: 'undetermined', values, evidence, elements, missing: open };
    }
    const texts = formatAgainst(Math.max(0, worst), needed, '%');
    const { threshold: level } = ruleset.conditions;
    const values = {
      worst: texts.value,
      needed: texts.limit,
      settles: settlesText(loads, status),
      drawing: loads.drawing,
      ceiling: formatQuantity(Math.max(0, worst), '%'),
      preferred: formatQuantity((level + worst) / 2, '%', 3),
    };
    return status === 'met'
      ? { status, message: 'met', values, evidence, elements }
      : {
          status,
          message: 'violated',
          values: { ...values, reduce: reduction(facts, needed) },
          evidence,
          elements,
          remedy: worst - level > 2 * (comparisonError ?? 0) ? 'match' : 'load',
          causedBy: ['precharge-reaches-threshold'],
        };
  },
};

/** What to make smaller, as the limit on the pre-charge resistance says. */
function reduction(facts: Facts, needed: number): string {
  const { bound, hopeless } = largestPrechargeResistance(facts, largestResistance);
  if (hopeless)
    return 'take load off the link during pre-charge, since no pre-charge resistance alone reaches what is set';
  if (bound === undefined) return 'lower the pre-charge resistance or the load on the link during pre-charge';
  const preferred = preferredPrechargeResistance(facts, bound, needed);
  const margin =
    preferred === undefined ? '' : ` (${formatQuantity(preferred, 'Ω')} leaves a margin of at least 20 % to that)`;
  return `lower the pre-charge resistance to a nominal value below ${formatQuantity(bound, 'Ω')}${margin}, or the load on the link during pre-charge`;
}
