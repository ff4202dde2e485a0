import type { Resistor } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import type { Figure } from '../../facts/figure.js';
import { boundedPart } from '../bounded-part.js';
import { closedForm } from '../closed-forms/closed-form.js';
import { sizeDemand } from '../demand.js';
import { judgePower } from '../judgement.js';
import type { Limit, LimitMeta } from '../limit.js';
import { limitNotStated, limitOnPart } from '../limit-on-part.js';
import { quantityText } from '../quantity-text.js';
import { permanentAllowance } from '../ratings/permanent-allowance.js';
import { toNominal } from '../to-nominal.js';

const meta: LimitMeta = {
  name: 'measuring-point-resistance',
  title: 'Smallest resistance behind a measuring point that stands a short of the points',
  unit: 'Ω',
  bound: 'min',
  rule: 'measuring-points',
  formula:
    'Half the highest voltage, squared, over the power that the resistor stands permanently. The value that the ruleset names for the voltage is judged by the rule.',
  sources: ['Joule heating in each of two equal resistors in series, textbook'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => {
    const { circuit, conditions, openCircuitVoltage } = facts;
    return pointResistors(facts).flatMap((resistor) => {
      const own = boundedPart(circuit, conditions, resistor.id);
      if (own === undefined) return [];
      // The book's values are nominal: nothing is assumed where a tolerance is not stated.
      const part = resistor.resistance.toleranceStated ? own : { ...own, upward: 0, downward: 0 };
      const allowance = permanentAllowance(resistor, circuit);
      const judgement = judgePower(shortPower(openCircuitVoltage, resistor.resistance.min), allowance);
      if (allowance.atLeast <= 0 && allowance.missing.length > 0) {
        return [limitNotStated(meta, part, allowance.missing, judgement.satisfied === false)];
      }
      const at = (value: number): number => sizeDemand(allowance.atLeast)(shortPower(openCircuitVoltage, value));
      return [
        limitOnPart(meta, {
          part,
          judgement,
          demands: [{ present: at(resistor.resistance.min), at }],
          basis: (value) =>
            `With the points shorted each resistor takes (U/2)²/R; U = ${quantityText(openCircuitVoltage.max ?? 0, 'V')} at most and ${quantityText(allowance.atLeast, 'W')} that it stands permanently ask for ${quantityText(value, 'Ω')}${toNominal(part, 'min')}.`,
        }),
      ];
    });
  },
  fromScalars: closedForm({
    required: ['voltage', 'ratedPower'],
    optional: ['tolerance'],
    formula: 'R = (U/2)²/P/(1 − tolerance)',
    compute: ({ voltage, ratedPower, tolerance = 0 }) => (voltage / 2) ** 2 / ratedPower / (1 - tolerance),
  }),
};

/** The resistor behind each point: the one called so, else the first that touches it. */
function pointResistors({ circuit }: Facts): readonly Resistor[] {
  const { positive, negative } = circuit.measuringPoints ?? {};
  const found = [positive, negative].flatMap((node) => {
    const touching = circuit.elements.filter(
      (element): element is Resistor => element.kind === 'resistor' && element.nodes.some((each) => each === node),
    );
    return touching.find(({ role }) => role === 'body-protection') ?? touching[0] ?? [];
  });
  return [...new Set(found)];
}

/** (U/2)²/R in each of two equal resistors with the points shorted. */
function shortPower(volts: Figure, ohms: number): Figure {
  const power = (value: number | null): number | null => (value === null || ohms <= 0 ? null : (value / 2) ** 2 / ohms);
  return {
    ...volts,
    nominal: power(volts.nominal),
    min: power(volts.min),
    max: power(volts.max),
    stated: { min: power(volts.stated.min), max: power(volts.stated.max) },
  };
}
