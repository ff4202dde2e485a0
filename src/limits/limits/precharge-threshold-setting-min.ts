import { closedForm } from '../closed-forms/closed-form.js';
import { undetermined } from '../judgement.js';
import type { Limit, LimitMeta } from '../limit.js';
import { percentText } from '../quantity-text.js';
import { recordOf } from '../record-of.js';

const meta: LimitMeta = {
  name: 'precharge-threshold-setting-min',
  title: 'Smallest threshold setting that guarantees the ruleset’s level',
  unit: '',
  bound: 'min',
  rule: 'precharge-setting',
  formula: 'Level plus the error of the comparison.',
  sources: ['Level: the ruleset', 'Error: the car’s own'],
};

/** Slack for sums of decimal fractions: 0.97 − 0.02 is a bit less than 0.95 as a double. A ratio, so no unit. */
const ROUNDING = 1e-12;

export const limit: Limit = {
  meta,
  compute: ({ circuit, conditions }) => {
    const { method, threshold, comparisonError } = circuit.control.precharge ?? {};
    if (method === 'timer') return [];
    const base = `${circuit.pointer}/control/precharge`;
    const missing = [
      ...(threshold === undefined ? [`${base}/threshold`] : []),
      ...(comparisonError === undefined ? [`${base}/comparisonError`] : []),
    ];
    const kept = threshold !== undefined && threshold - (comparisonError ?? 0) >= conditions.threshold - ROUNDING;
    const violated = threshold !== undefined && !kept;
    const wanted = comparisonError === undefined ? null : conditions.threshold + comparisonError;
    // No setting lies above the accumulator's own voltage.
    const hopeless = wanted !== null && wanted > 1 + ROUNDING;
    const value = hopeless ? null : wanted;
    return [
      recordOf({
        meta,
        outcome: wanted === null ? 'not-stated' : hopeless ? 'no-value-helps' : 'bound',
        value,
        nominal: value,
        present: threshold ?? null,
        judgement:
          missing.length > 0 && !violated ? undetermined(missing) : { satisfied: kept, missing, notComputable: false },
        basis:
          wanted === null
            ? meta.formula
            : `The comparison may be satisfied by its error below the setting: level ${percentText(conditions.threshold)} plus error ${percentText(comparisonError ?? 0)} is ${percentText(wanted)}.`,
      }),
    ];
  },
  fromScalars: closedForm(meta.bound, {
    required: ['threshold'],
    optional: ['tolerance'],
    formula: 'setting = level + error: `threshold` is the level, `tolerance` the error of the comparison as a ratio',
    compute: ({ threshold, tolerance = 0 }) =>
      threshold + tolerance > 1 + ROUNDING ? Infinity : threshold + tolerance,
  }),
};
