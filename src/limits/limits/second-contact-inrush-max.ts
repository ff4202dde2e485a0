import { elementById } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import type { Figure } from '../../facts/figure.js';
import { closingCurrent, sourceUnstated } from '../closing-current.js';
import { closedForm } from '../closed-forms/closed-form.js';
import { type Judgement, judgeAll, judgeAtMost, judgedEnds, undetermined } from '../judgement.js';
import { levelUnstated } from '../level-unstated.js';
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
    const { circuit, topology } = facts;
    const inrush = closingCurrent(facts);
    // Where the threshold is never reached the last relay never closes.
    if (inrush.reason === 'never' || inrush.reason === 'no-path') return [];
    const when = closingText(facts);
    const unstated = levelUnstated(facts);
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
          present: judgedEnds(inrush).max,
          at: inrush.at.max,
          judgement:
            rating === undefined
              ? undetermined([`${relay.pointer}/ratings/makingCurrent`])
              : judgeAll([
                  judgeClosing(facts, inrush, rating),
                  ...(unstated.length > 0 ? [undetermined(unstated)] : []),
                ]),
          basis:
            value === null
              ? meta.formula
              : `The relay makes up to ${quantityText(value, 'A')}. ${when} the resistance of source, cables and capacitor: ${inrush.max === null ? 'no number' : quantityText(inrush.max, 'A')} at worst.`,
        }),
      ];
    });
  },
  fromScalars: closedForm(meta.bound, {
    required: ['voltage', 'threshold', 'sourceResistance'],
    formula: 'I = (1 − p)·U/R, R the resistance of source, cables and capacitor',
    compute: ({ voltage, threshold, sourceResistance }) => ((1 - threshold) * voltage) / sourceResistance,
    notes: {
      nothing: 'At this level nothing is missing across the relay, and no current flows at its closing.',
      unlimited: 'Without resistance nothing limits the current.',
    },
  }),
};

/** A current too large is none for certain while a resistance that could only lower it is not stated. */
function judgeClosing(facts: Facts, inrush: Figure, rating: number): Judgement {
  const judged = judgeAtMost(inrush, rating);
  const lowering = sourceUnstated(facts);
  return judged.satisfied === false && lowering.length > 0 ? undetermined(lowering) : judged;
}

/** When the relay closes and what it meets then, as the start of a sentence. */
function closingText({ circuit, conditions, lastClosure, sequence }: Facts): string {
  if (sequence.source === 'stated' && lastClosure !== undefined) {
    return 'Closing where the stated order has it close, it meets what the link still lacks across';
  }
  const { threshold, comparisonError = 0 } = circuit.control.precharge ?? {};
  const lowest = (threshold ?? conditions.threshold) - comparisonError;
  return `Closing as early as at ${percentText(lowest)} it meets ${percentText(1 - lowest)} of the voltage across`;
}
