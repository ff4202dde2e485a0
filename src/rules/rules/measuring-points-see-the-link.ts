import { fieldNames } from '../field-names.js';
import { formatQuantity } from '../format-quantity.js';
import { listOutcome } from '../list-outcome.js';
import { closest } from '../measured-against.js';
import type { Outcome, Rule } from '../rule.js';

/** Relative difference at which a reading misleads: far above what 15 kΩ in each lead of a 10 MΩ voltmeter makes (0.3 %). */
const MISLEADING = 0.05;

export const rule: Rule = {
  meta: {
    id: 'measuring-points-see-the-link',
    title: 'The measuring points read what stands on the capacitors',
    rationale:
      'Before anyone reaches in, the voltage is measured at the measuring points. If they end on the wrong side of a disconnect or plug they read nothing while a capacitor is still charged.',
    parameters: ['dischargeVoltage'],
    messages: {
      met: 'In every separation state a voltmeter at the measuring points reads at most {share} less than what stands on any capacitor, for as long as that is above {limitVoltage}.',
      violated: 'A voltmeter at the measuring points does not read a charged capacitor: {problems}.',
      undetermined: 'Whether the measuring points read the link cannot be told without {fields}.',
      nothing: 'No capacitor stands above {limitVoltage} in any separation state, so nothing can be misread.',
    },
    remedies: {
      move: 'Take the leads of the measuring points to the capacitor’s own terminals, on the car’s side of every disconnect and plug.',
    },
    inspect: 'Follow the leads of the measuring points behind their resistors to where they end.',
  },
  check({ circuit, measuringPointStates }, ruleset): Outcome {
    const { dischargeVoltage } = ruleset.conditions;
    if (measuringPointStates === undefined) {
      const missing = [`${circuit.pointer}/measuringPoints`];
      return {
        status: 'undetermined',
        message: 'undetermined',
        values: { fields: fieldNames(circuit, missing) },
        missing,
      };
    }
    const limitVoltage = formatQuantity(dischargeVoltage, 'V');
    if (measuringPointStates.length === 0)
      return { status: 'not-applicable', message: 'nothing', values: { limitVoltage } };
    const wrong = measuringPointStates
      .filter(({ reading, error }) => reading === null || Math.abs(error) > MISLEADING)
      .map(({ state, capacitor, capacitorVoltage, reading, time }) => {
        const when =
          time === 0 ? '' : time === null ? ' in the end' : ` ${formatQuantity(time, 's')} after the release`;
        const read =
          reading === null ? 'the points read nothing of it' : `the points read ${formatQuantity(reading, 'V')}`;
        return {
          elements: [capacitor],
          text: `in the state ${state} ${capacitor} stands at ${formatQuantity(capacitorVoltage, 'V')}${when} and ${read}`,
        };
      });
    return listOutcome(circuit, {
      wrong,
      missing: [],
      elements: [...new Set(measuringPointStates.map(({ capacitor }) => capacitor))],
      evidence: {
        ...closest(
          measuringPointStates.map(({ error }) => ({
            actual: Math.abs(error),
            limit: MISLEADING,
            side: 'below' as const,
            unit: 'ratio',
          })),
        ),
        states: measuringPointStates,
      },
      values: { share: formatQuantity(MISLEADING, '%'), limitVoltage },
      remedy: 'move',
    });
  },
};
