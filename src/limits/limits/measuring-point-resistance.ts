import type { ResolvedCircuit, Resistor } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import type { Figure } from '../../facts/figure.js';
import { type BoundedPart, boundedPart } from '../bounded-part.js';
import { closedForm } from '../closed-forms/closed-form.js';
import { type Demand, sizeDemand } from '../demand.js';
import { judgeAll, judgePower, MET, VIOLATED } from '../judgement.js';
import type { Limit, LimitMeta, OneLimit } from '../limit.js';
import { limitNotStated, limitOnPart } from '../limit-on-part.js';
import { type PointProtection, pointProtection } from '../points/point-protection.js';
import { type WantedProtection, wantedProtection } from '../points/wanted-protection.js';
import { quantityText } from '../quantity-text.js';
import { permanentAllowance } from '../ratings/permanent-allowance.js';
import { toNominal } from '../to-nominal.js';

/** A demand this little below 1 is still the one that made the bound. */
const TIE = 1e-9;

const meta: LimitMeta = {
  name: 'measuring-point-resistance',
  title:
    'Smallest resistance behind a measuring point that stands a short of the points; as a max, the largest near the book’s',
  unit: 'Ω',
  bound: 'min',
  rule: 'measuring-points',
  formula:
    'Half the highest voltage, squared, over the power that the resistor stands permanently; and a nominal value within 5 % of the one that the book names for the voltage.',
  sources: ['Joule heating in each of two equal resistors in series, textbook', 'Value for the voltage: the ruleset'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => {
    const { positive, negative } = facts.circuit.measuringPoints ?? {};
    const points = [...new Set([positive, negative].filter((node) => node !== undefined))];
    return points.flatMap((point) => {
      const protection = pointProtection(facts.circuit, point);
      const alone = protection?.parts.length === 1;
      return (protection?.parts ?? []).flatMap(({ resistor }) => {
        const whole: Whole = alone
          ? (nominal) => ({ resistance: nominal, share: 1 })
          : (nominal) => protectionWith(facts.circuit, point, resistor, nominal);
        return limitsOn(facts, resistor, whole);
      });
    });
  },
  fromScalars: closedForm(meta.bound, {
    required: ['voltage', 'ratedPower'],
    optional: ['tolerance'],
    formula: 'R = (U/2)²/P/(1 − tolerance)',
    compute: ({ voltage, ratedPower, tolerance = 0 }) => (voltage / 2) ** 2 / ratedPower / (1 - tolerance),
  }),
};

function limitsOn(facts: Facts, resistor: Resistor, whole: Whole): OneLimit[] {
  const { circuit, conditions, openCircuitVoltage } = facts;
  const own = boundedPart(circuit, conditions, resistor.id);
  if (own === undefined) return [];
  // The book's values are nominal: nothing is assumed where a tolerance is not stated.
  const part = resistor.resistance.toleranceStated ? own : { ...own, upward: 0, downward: 0 };
  const wanted = wantedProtection(openCircuitVoltage.max ?? 0, conditions);
  return [
    smallest(facts, part, resistor, wanted, whole),
    ...(wanted === undefined ? [] : [largest(part, wanted, whole)]),
  ];
}

/** Ω of the whole protection of a point with one of its resistors at another nominal value, and that resistor's share of its voltage. */
type Whole = (nominal: number) => { readonly resistance: number; readonly share: number };

function smallest(
  { circuit, openCircuitVoltage }: Facts,
  part: BoundedPart,
  resistor: Resistor,
  wanted: WantedProtection | undefined,
  whole: Whole,
): OneLimit {
  const allowance = permanentAllowance(resistor, circuit);
  const { resistance, share } = whole(part.present);
  const tooSmall = wanted !== undefined && resistance < wanted.lowest;
  const short = judgePower(shortPower(openCircuitVoltage, resistor.resistance.min, share), allowance);
  const judgement = judgeAll([...(tooSmall ? [VIOLATED] : []), short]);
  if (allowance.atLeast <= 0 && allowance.missing.length > 0) {
    return limitNotStated(meta, part, allowance.missing, judgement.satisfied === false);
  }
  const nominalOf = (value: number): number => value / (1 - part.downward);
  const power = (value: number): number =>
    sizeDemand(allowance.atLeast)(shortPower(openCircuitVoltage, value, whole(nominalOf(value)).share));
  const demands = [power];
  if (wanted !== undefined) demands.push((value) => wanted.lowest / whole(nominalOf(value)).resistance);
  const record = limitOnPart(meta, {
    part,
    judgement,
    demands: demands.map((at) => demandFrom(part.present * (1 - part.downward), at)),
    basis: (value) => {
      const book =
        wanted === undefined
          ? ''
          : ` The book wants ${quantityText(wanted.resistance, 'Ω')}, and a nominal of ${quantityText(wanted.lowest, 'Ω')} is near enough.`;
      return `With the points shorted each resistor takes (U/2)²/R; U = ${quantityText(openCircuitVoltage.max ?? 0, 'V')} at most, and it stands ${quantityText(allowance.atLeast, 'W')} permanently.${book} Together they ask for ${quantityText(value, 'Ω')}${toNominal(part, 'min')}.`;
    },
  });
  const byBook = record.value !== null && power(record.value) < 1 - TIE;
  return byBook ? withoutMargin(record) : record;
}

function largest(part: BoundedPart, wanted: WantedProtection, whole: Whole): OneLimit {
  const at = (value: number): number => whole(value / (1 + part.upward)).resistance / wanted.highest;
  const record = limitOnPart(
    { ...meta, bound: 'max' },
    {
      part,
      judgement: whole(part.present).resistance > wanted.highest ? VIOLATED : MET,
      demands: [demandFrom(part.present * (1 + part.upward), at)],
      basis: (value) =>
        `The book wants ${quantityText(wanted.resistance, 'Ω')} for this voltage, and a nominal of ${quantityText(wanted.highest, 'Ω')} is near enough: ${quantityText(value, 'Ω')} of this part${toNominal(part, 'max')}.`,
    },
  );
  return withoutMargin(record);
}

/** How near a value lies to the edge of what counts as the book's own says nothing of a want of margin. */
function withoutMargin(record: OneLimit): OneLimit {
  return { ...record, margin: null };
}

function demandFrom(start: number, at: (value: number) => number): Demand {
  return { present: at(start), at };
}

function protectionWith(circuit: ResolvedCircuit, point: string, resistor: Resistor, nominal: number) {
  const moved = { ...resistor, resistance: { ...resistor.resistance, nominal } };
  const elements = circuit.elements.map((element) => (element.id === resistor.id ? moved : element));
  const protection: PointProtection | undefined = pointProtection({ ...circuit, elements }, point);
  const own = protection?.parts.find((each) => each.resistor.id === resistor.id);
  return { resistance: protection?.resistance ?? 0, share: own?.share ?? 1 };
}

/** (U/2)²/R in each of two equal resistors with the points shorted; of one in several the share of its voltage. */
function shortPower(volts: Figure, ohms: number, share: number): Figure {
  const power = (value: number | null): number | null =>
    value === null || ohms <= 0 ? null : ((share * value) / 2) ** 2 / ohms;
  return {
    ...volts,
    nominal: power(volts.nominal),
    min: power(volts.min),
    max: power(volts.max),
    stated: { min: power(volts.stated.min), max: power(volts.stated.max) },
  };
}
