import { elementById, type Resistor } from '../../circuit/model.js';
import { closedForm } from '../closed-forms/closed-form.js';
import type { Facts } from '../../facts/facts.js';
import type { Figure } from '../../facts/figure.js';
import type { BoundedPart } from '../bounded-part.js';
import { type Demand, demandOn, sizeDemand } from '../demand.js';
import { judgedEnds } from '../judgement.js';
import { judgePrechargeResistor } from '../judge-precharge-resistor.js';
import type { Limit, LimitMeta } from '../limit.js';
import { limitNotStated, limitOnPart } from '../limit-on-part.js';
import { firstCurrentModel } from '../models/first-current-model.js';
import { prechargeResistors } from '../present-parts.js';
import { quantityText } from '../quantity-text.js';
import { ambientOf } from '../ratings/ambient-of.js';
import { prechargeAllowance } from '../ratings/precharge-allowance.js';
import { toNominal } from '../to-nominal.js';

const meta: LimitMeta = {
  name: 'precharge-resistance-min-energy',
  title: 'Smallest pre-charge resistance that stands the first instant, and a rise into a short until the timeout',
  unit: 'Ω',
  bound: 'min',
  rule: 'precharge-resistor-rating',
  formula:
    'Highest voltage squared times the time of a rise into a short, over the heat that the resistor stands in that time. The heat of a sound rise is about ½·C·U² whatever the resistance; where a highest temperature is stated, how long it takes to come counts too.',
  sources: ['Joule heating, textbook', 'Ratings: the resistor’s data sheet', 'Derating: the form of MIL-PRF-39009'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => {
    const { circuit, rise, openCircuitVoltage } = facts;
    const resistor = elementById(circuit, rise.resistor ?? '');
    if (resistor?.kind !== 'resistor' || rise.resistorPeakPower.reason === 'no-path') return [];
    const { atLeast, short, missing, needed } = prechargeAllowance(resistor, circuit);
    const judgement = judgePrechargeResistor(resistor, circuit, rise);
    const parts = prechargeResistors(facts).filter(({ id }) => id === resistor.id);
    const notStated = atLeast > 0 ? needed : [...missing, ...needed];
    if (notStated.length > 0) {
      return parts.map((part) => limitNotStated(meta, part, notStated, judgement.satisfied === false));
    }
    return parts.map((part) => {
      const heating = temperatureDemand(facts, part, resistor, ambientOf(resistor, circuit));
      return limitOnPart(meta, {
        part,
        judgement,
        demands: [
          demandOn({
            facts,
            part,
            end: 'max',
            bound: meta.bound,
            read: (figures) => figures.rise.resistorPeakPower,
            measure: sizeDemand(atLeast),
            model: firstCurrentModel(facts, part, rise.resistorPeakPower, { kind: 'power', allowed: atLeast }),
          }),
          ...heating,
        ],
        basis: (value, by) => {
          if (by !== undefined && heating.includes(by)) return heatingText(value, part, resistor);
          const volts = quantityText(openCircuitVoltage.max ?? 0, 'V');
          const time =
            short === undefined
              ? 'at the first instant'
              : `at the first instant and for the ${quantityText(short, 's')} of a rise into a short`;
          const heat = short === undefined ? '' : ` (${quantityText(atLeast * short, 'J')} in all)`;
          return `The resistor stands P = ${quantityText(atLeast, 'W')} ${time}${heat}; the highest voltage U = ${volts} puts U²/R into it, so R is at least U²/P, here ${quantityText(value, 'Ω')}${toNominal(part, 'min')}.`;
        },
      });
    });
  },
  fromScalars: closedForm(meta.bound, {
    required: ['voltage', 'time', 'energy'],
    optional: ['tolerance'],
    formula: 'R = U²·t/E/(1 − tolerance), E the heat stood in the time t',
    compute: ({ voltage, time, energy, tolerance = 0 }) => (voltage ** 2 * time) / energy / (1 - tolerance),
  }),
};

function heatingText(value: number, part: BoundedPart, { thermal }: Resistor): string {
  const highest = quantityText(thermal?.maxTemperature ?? 0, '');
  return `A rise puts about ½·C·U² into the resistor whatever its resistance; the slower it is, the more of that heat has gone off by its end. Below ${quantityText(value, 'Ω')} the resistor gets hotter than its highest temperature of ${highest} °C, though its power rating alone would allow less${toNominal(part, 'min')}.`;
}

/** Of what a resistor's mass can take up, the share within which no smaller resistance has to be tried: faster is never much more heat. */
const SURELY_COOL = 0.5;

/** The share of what is left up to the highest temperature that a sound rise takes up; none where that is not stated. */
function temperatureDemand(
  facts: Facts,
  part: BoundedPart,
  { thermal }: Resistor,
  ambient: number | undefined,
): Demand[] {
  const { resistorPeakTemperature, resistorEnergy } = facts.rise;
  const { maxTemperature: highest, capacitance = 0 } = thermal ?? {};
  if (highest === undefined || ambient === undefined || resistorPeakTemperature.nominal === null) return [];
  if ((resistorEnergy.max ?? Infinity) <= SURELY_COOL * capacitance * (highest - ambient)) return [];
  const measure = (figure: Figure): number => {
    const { max } = judgedEnds(figure);
    return max === null || highest <= ambient ? Number.POSITIVE_INFINITY : (max - ambient) / (highest - ambient);
  };
  const { bound } = meta;
  return [demandOn({ facts, part, end: 'max', bound, read: ({ rise }) => rise.resistorPeakTemperature, measure })];
}
