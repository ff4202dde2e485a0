import { isOpen } from '../../facts/figures/is-open.js';
import { elementsOf } from '../elements-of.js';
import { fieldNames } from '../field-names.js';
import { figureEvidence } from '../figure-evidence.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { judgeHeat } from '../judge-heat.js';
import { measuredAgainst } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'restart-heat',
    title: 'Repeated starts do not overheat the pre-charge resistor',
    rationale:
      'A car that will not start is started again, and again. Each start leaves its heat in the resistor, and one after the other they add up.',
    parameters: ['repeats'],
    messages: {
      met: 'Each start leaves up to {actual} in {resistor}; where {starts} it stands {limit} of each.',
      warm: '{resistor} reaches {actual} at most where {starts}, and stands {limit}.',
      violated: '{resistor} reaches up to {actual} where {starts}, and stands only {limit}.',
      undetermined: 'Whether {resistor} stands it where {starts} cannot be told without {fields}.',
      none: 'No resistor carries the rise.',
      endless: 'At worst a rise never reaches its threshold, so a start has no heat of its own to add up.',
    },
    remedies: {
      wait: 'Block a restart for longer, or fit a resistor with more thermal mass or a higher overload rating: {energy} each time, {preferred} with a margin of 20 %.',
    },
    inspect: 'Ask what keeps the driver from starting again at once, and how long.',
  },
  check({ circuit, rise }, ruleset): Outcome {
    const [resistor] = elementsOf(circuit, rise.resistor === undefined ? [] : [rise.resistor], 'resistor');
    if (resistor === undefined) {
      return { status: 'not-applicable', message: 'none', causedBy: ['precharge-reaches-threshold'] };
    }
    if (rise.resistorEnergy.max === null && !isOpen(rise.resistorEnergy)) {
      const causedBy = ['precharge-reaches-threshold', 'precharge-reaches-setting', 'precharge-completes-in-time'];
      return { status: 'not-applicable', message: 'endless', causedBy };
    }
    const { minimumRestartInterval } = circuit.control.precharge ?? {};
    const { count, within } = ruleset.conditions.repeats;
    const blocked = minimumRestartInterval !== undefined && minimumRestartInterval > 0;
    const starts = blocked
      ? { count: Infinity, interval: minimumRestartInterval }
      : { count, interval: within / count };
    const { status, missing, energy, measured } = judgeHeat(resistor, circuit, {
      energy: rise.resistorEnergy,
      count: starts.count,
      temperature: () => rise.attemptsPeakTemperature(starts.count, starts.interval),
    });
    const texts = formatAgainst(measured.actual, measured.limit, measured.unit);
    const values = {
      resistor: resistor.id,
      energy: formatQuantity(energy, 'J'),
      actual: texts.value,
      limit: texts.limit,
      preferred: formatQuantity(roundUp(energy / (1 - MARGIN), 3), 'J'),
      starts: blocked
        ? `the car is started every ${formatQuantity(minimumRestartInterval, 's')}`
        : `the car is started ${count} times within ${formatQuantity(within, 's')}`,
      fields: fieldNames(circuit, missing),
    };
    const evidence = {
      ...measuredAgainst(measured),
      energy: figureEvidence(rise.resistorEnergy),
      minimumRestartInterval: minimumRestartInterval ?? null,
      repeats: { count, within },
    };
    const remedy = status === 'violated' ? { remedy: 'wait' } : {};
    const message = status === 'met' && measured.unit === '°C' ? 'warm' : status;
    return { status, message, values, evidence, elements: [resistor.id], missing, ...remedy };
  },
};
