import { fieldNames } from '../field-names.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { measuredAgainst } from '../measured-against.js';
import type { Outcome, Rule } from '../rule.js';
import { ROUNDING } from '../rounding.js';

export const rule: Rule = {
  meta: {
    id: 'precharge-setting',
    title: 'The threshold as set guarantees the level',
    rationale:
      'A comparator or an analogue input is never exact. If the threshold is set at the level itself, half of all builds close the last relay a little below it.',
    parameters: ['threshold'],
    messages: {
      met: 'Set at {setting} with an error of up to {error}, the comparison is satisfied at {lowest} or above; {level} is required.',
      violated:
        'Set at {setting} with an error of up to {error}, the comparison can be satisfied at {lowest}; {level} is required.',
      below: 'The comparison is set at {setting}; {level} is required.',
      undetermined: 'Whether the setting guarantees {level} cannot be told without {fields}.',
      timer: 'A timer decides, so there is no threshold to be set.',
    },
    remedies: {
      raise:
        'Set the threshold to at least {bound}, its error included, but below the ratio that the link gets to ({ceiling} at worst): {preferred} lies midway.',
      sharpen:
        'The threshold would have to be at least {bound}, but the link gets to {ceiling} at worst: reduce the error of the comparison, or the load during pre-charge.',
    },
    inspect:
      'Ask for the threshold in the schematic or software and for the tolerances of both dividers and of the reference.',
  },
  check(facts, ruleset): Outcome {
    const { method, threshold, comparisonError } = facts.circuit.control.precharge ?? {};
    const required = ruleset.conditions.threshold;
    const base = `${facts.circuit.pointer}/control/precharge`;
    if (method === 'timer') return { status: 'not-applicable', message: 'timer' };
    const level = formatQuantity(required, '%');
    const evidence = { setting: threshold ?? null, comparisonError: comparisonError ?? null, required };
    const missing = [
      ...(threshold === undefined ? [`${base}/threshold`] : []),
      ...(comparisonError === undefined ? [`${base}/comparisonError`] : []),
    ];
    const lowest = threshold === undefined ? undefined : threshold - (comparisonError ?? 0);
    if (lowest === undefined || (comparisonError === undefined && lowest >= required - ROUNDING)) {
      const values = { level, fields: fieldNames(facts.circuit, missing) };
      return { status: 'undetermined', message: 'undetermined', values, evidence, missing };
    }
    const judged = {
      ...measuredAgainst({ actual: lowest, limit: required, side: 'above', unit: 'ratio' }),
      ...evidence,
    };
    const texts = formatAgainst(lowest, required, '%');
    const values = {
      setting: formatQuantity(threshold ?? 0, '%'),
      error: formatQuantity(comparisonError ?? 0, '%'),
      lowest: texts.value,
      level,
    };
    if (lowest >= required - ROUNDING) return { status: 'met', message: 'met', values, evidence: judged };
    const bound = required + (comparisonError ?? 0);
    const ceiling = facts.rise.steadyRatio.min ?? 1;
    return {
      status: 'violated',
      message: comparisonError === undefined ? 'below' : 'violated',
      values: {
        ...values,
        bound: formatQuantity(bound, '%'),
        ceiling: formatQuantity(ceiling, '%'),
        // Between what guarantees the level and what is always reached, the error taken off both.
        preferred: formatQuantity((bound + ceiling - (comparisonError ?? 0)) / 2, '%', 3),
      },
      evidence: judged,
      remedy: bound + (comparisonError ?? 0) < ceiling ? 'raise' : 'sharpen',
    };
  },
};
