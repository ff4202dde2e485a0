import { fieldNames } from '../field-names.js';
import { figureEvidence } from '../figure-evidence.js';
import { formatAgainst } from '../format-against.js';
import { judgeFigure } from '../judge-figure.js';
import { measuredAgainst } from '../measured-against.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'highest-voltage',
    title: 'The accumulator stays within the highest voltage allowed',
    rationale:
      'Every clearance, rating and glove at the event is chosen for the highest voltage that the book allows; what counts is the full accumulator.',
    parameters: ['maximumVoltage'],
    messages: {
      met: 'The full accumulator has {worst}; {limit} are allowed.',
      violated: 'The full accumulator has {worst}; only {limit} are allowed.',
      undetermined: 'Whether the full accumulator stays within {limit} cannot be told without the range of {fields}.',
    },
    remedies: { fewer: 'Use fewer cells in series, or charge them less: {limit} at most when full.' },
    inspect:
      'Count the cells in series and multiply by the highest cell voltage; compare with the accumulator’s own display when full.',
  },
  check({ circuit, openCircuitVoltage }, ruleset): Outcome {
    const limit = ruleset.conditions.maximumVoltage;
    const { status, missing, worst, notComputable } = judgeFigure(openCircuitVoltage, {
      side: 'below',
      limit,
      strict: false,
    });
    const texts = formatAgainst(worst, limit, 'V');
    const evidence = {
      ...measuredAgainst({ actual: worst, limit, side: 'below', unit: 'V' }),
      openCircuitVoltage: figureEvidence(openCircuitVoltage),
      maximumVoltage: limit,
    };
    const elements = circuit.elements.filter(({ kind }) => kind === 'accumulator').map(({ id }) => id);
    // A bare voltage is the nominal one; a full accumulator has more, and no tolerance is assumed for it.
    const bare = circuit.elements
      .filter((element) => element.kind === 'accumulator')
      .filter(({ voltage }) => !voltage.toleranceStated)
      .map(({ pointer }) => `${pointer}/voltage`);
    const open = notComputable ? missing : [...new Set([...missing, ...bare])];
    const values = { worst: texts.value, limit: texts.limit, fields: fieldNames(circuit, open) };
    if (status === 'violated') return { status, message: 'violated', values, evidence, elements, remedy: 'fewer' };
    if (status === 'undetermined' || open.length > 0) {
      return { status: 'undetermined', message: 'undetermined', values, evidence, elements, missing: open };
    }
    return { status, message: 'met', values, evidence, elements };
  },
};
