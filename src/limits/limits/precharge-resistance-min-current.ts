import { type Contact, type ContactRatings, elementById } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import { closedForm } from '../closed-forms/closed-form.js';
import { demandOn, sizeDemand } from '../demand.js';
import { judgeAtMost } from '../judgement.js';
import type { Limit, LimitMeta } from '../limit.js';
import { limitNotStated, limitOnPart } from '../limit-on-part.js';
import { firstCurrentModel } from '../models/first-current-model.js';
import { prechargeResistors } from '../present-parts.js';
import { quantityText } from '../quantity-text.js';
import { toNominal } from '../to-nominal.js';

const meta: LimitMeta = {
  name: 'precharge-resistance-min-current',
  title: 'Smallest pre-charge resistance with which the relays of the rise keep to their ratings',
  unit: 'Ω',
  bound: 'min',
  rule: 'relay-ratings',
  formula: 'Highest voltage over the smallest current rating, less the resistance in series.',
  sources: ['Ohm’s law, textbook', 'Ratings: the relays’ data sheets'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => {
    const { peakCurrent } = facts.rise;
    if (peakCurrent.reason === 'no-path') return [];
    const ratings = ratingsOf(facts);
    const missing = ratings.flatMap(({ value, pointer }) => (value === undefined ? [pointer] : []));
    const [least] = ratings
      .flatMap(({ value, text }) => (value === undefined ? [] : [{ value, text }]))
      .sort((a, b) => a.value - b.value);
    const parts = prechargeResistors(facts);
    if (least === undefined || missing.length > 0) {
      const violated = least !== undefined && judgeAtMost(peakCurrent, least.value).satisfied === false;
      return ratings.length === 0 ? [] : parts.map((part) => limitNotStated(meta, part, missing, violated));
    }
    return parts.map((part) =>
      limitOnPart(meta, {
        part,
        judgement: judgeAtMost(peakCurrent, least.value),
        demands: [
          demandOn({
            facts,
            part,
            end: 'max',
            bound: meta.bound,
            read: ({ rise }) => rise.peakCurrent,
            measure: sizeDemand(least.value),
            model: firstCurrentModel(facts, part, peakCurrent, { kind: 'current', allowed: least.value }),
          }),
        ],
        basis: (value) =>
          `At the first instant the whole voltage stands across R, so R is at least U/I less what is in series: U = ${quantityText(facts.openCircuitVoltage.max ?? 0, 'V')} at most, I = ${quantityText(least.value, 'A')} (${least.text}), which leaves ${quantityText(value, 'Ω')}${toNominal(part, 'min')}.`,
      }),
    );
  },
  fromScalars: closedForm(meta.bound, {
    required: ['voltage', 'current'],
    optional: ['sourceResistance', 'tolerance'],
    formula: 'R = (U/I − source resistance)/(1 − tolerance)',
    compute: ({ voltage, current, sourceResistance = 0, tolerance = 0 }) =>
      (voltage / current - sourceResistance) / (1 - tolerance),
  }),
};

interface Rating {
  readonly value: number | undefined;
  readonly pointer: string;
  readonly text: string;
}

/**
 * What the current of the first instant is held against: a pre-charge relay makes, carries and, with the link shorted, breaks
 * it; an isolation relay that completes the path makes it.
 */
function ratingsOf({ circuit, topology }: Facts): readonly Rating[] {
  const of = (ids: readonly string[], names: ReadonlyArray<keyof ContactRatings>): Rating[] =>
    ids
      .map((id) => elementById(circuit, id))
      .filter((element): element is Contact => element?.kind === 'contact')
      .flatMap(({ id, ratings, pointer }) =>
        names.map((name) => ({
          value: ratings?.[name],
          pointer: `${pointer}/ratings/${name}`,
          text: `${name} of ${id}`,
        })),
      );
  const completing = topology.isolationRelays.filter((id) => !topology.bridgedRelays.includes(id));
  return [
    ...of(topology.prechargeRelays, ['makingCurrent', 'breakingCurrent', 'carryingCurrent']),
    ...of(completing, ['makingCurrent']),
  ];
}
