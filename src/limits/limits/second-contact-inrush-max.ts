import { elementById } from '../../circuit/model.js';
import { closedForm } from '../closed-forms/closed-form.js';
import { judgeAtMost, undetermined } from '../judgement.js';
import type { Limit, LimitMeta } from '../limit.js';
import { percentText, quantityText } from '../quantity-text.js';
import { recordOf } from '../record-of.js';

const meta: LimitMeta = {
  name: 'second-contact-inrush-max',
  title: 'Largest current at the closing of the last isolation relay',
  unit: 'A',
  bound: 'max',
  rule: 'relay-ratings',
  formula:
    'Making current of the relay; the inrush is (1 − threshold) times the voltage over the resistance of source, cables and capacitor.',
  sources: ['Ohm’s law, textbook', 'Making current: the relay’s data sheet'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => {
    const { circuit, conditions, rise, topology } = facts;
    const inrush = rise.currentAtSecondClosure;
    // Where the threshold is never reached the last relay never closes.
    if (inrush.reason === 'never' || inrush.reason === 'no-path') return [];
    const { threshold, comparisonError = 0 } = circuit.control.precharge ?? {};
    const lowest = (threshold ?? conditions.threshold) - comparisonError;
    return topology.bridgedRelays.flatMap((id) => {
      const relay = elementById(circuit, id);
      if (relay?.kind !== 'contact') return [];
      const rating = relay.ratings?.makingCurrent;
      const value = rating ?? null;
      return [
        recordOf({
          meta,
          element: id,
          outcome: value === null ? 'not-stated' : 'bound',
          value,
          nominal: value,
          present: inrush.max,
          judgement:
            rating === undefined
              ? undetermined([`${relay.pointer}/ratings/makingCurrent`])
              : judgeAtMost(inrush, rating),
          basis:
            value === null
              ? meta.formula
              : `The relay makes up to ${quantityText(value, 'A')}. Closing as early as at ${percentText(lowest)} it meets ${percentText(1 - lowest)} of the voltage across the resistance of source, cables and capacitor: ${inrush.max === null ? 'no number' : quantityText(inrush.max, 'A')} at worst.`,
        }),
      ];
    });
  },
  fromScalars: closedForm({
    required: ['voltage', 'threshold', 'sourceResistance'],
    formula: 'I = (1 − p)·U/R, R the resistance of source, cables and capacitor',
    compute: ({ voltage, threshold, sourceResistance }) => ((1 - threshold) * voltage) / sourceResistance,
  }),
};
