import type { Facts } from '../../facts/facts.js';
import { CURRENT_LOAD_KNEE } from '../../transient/load-knee.js';
import { type BoundedPart, boundedPart } from '../bounded-part.js';
import { closedForm } from '../closed-forms/closed-form.js';
import { largestConstantPower } from '../closed-forms/largest-constant-power.js';
import { parallelResistance } from '../closed-forms/parallel-resistance.js';
import { demandOn, ratioDemand } from '../demand.js';
import { judgeAbove } from '../judgement.js';
import type { Limit, LimitMeta } from '../limit.js';
import { limitOnPart } from '../limit-on-part.js';
import { percentText, quantityText } from '../quantity-text.js';
import { readSteadyRatio } from '../read-steady-ratio.js';
import { toNominal } from '../to-nominal.js';

const meta: LimitMeta = {
  name: 'constant-power-load-max',
  title: 'Largest constant power that may be drawn while the link charges',
  unit: 'W',
  bound: 'max',
  rule: 'precharge-reaches-threshold',
  formula:
    'Voltage squared over pre-charge resistance times level times (1 − level), less what the other loads draw; less where the load wakes up before the resistor can feed it.',
  sources: ['Power through a resistance at a given voltage, textbook', 'Level: the ruleset'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => {
    const { steadyRatio } = facts.rise;
    if (steadyRatio.reason === 'no-path') return [];
    const level = facts.conditions.threshold;
    const lowest = facts.openCircuitVoltage.min ?? 0;
    return powerLoads(facts).map(({ part, wakesAt }) =>
      limitOnPart(meta, {
        part,
        judgement: judgeAbove(steadyRatio, level),
        demands: [
          demandOn({ facts, part, end: 'min', bound: meta.bound, read: readSteadyRatio, measure: ratioDemand(level) }),
        ],
        basis: (value) => {
          // What is lower never wakes the load.
          const fed = Math.max(lowest, wakesAt);
          const lowestText = `the lowest voltage ${fed > lowest ? 'that wakes it ' : ''}U = ${quantityText(fed, 'V')}`;
          const leaves = `and everything else at its worst that leaves ${quantityText(value, 'W')}${toNominal(part, 'max')}.`;
          // V·(U − V)/R is least at one of the two ends of the way up.
          const early = wakesAt < level * fed && wakesAt * (fed - wakesAt) < level * (1 - level) * fed * fed;
          return early
            ? `A load that draws from ${quantityText(wakesAt, 'V')} on must be fed there already: with the link at V the pre-charge resistor carries (U − V)/R, so it may draw V·(U − V)/R. With V = ${quantityText(wakesAt, 'V')}, ${lowestText} ${leaves}`
            : `With the link at p·U the pre-charge resistor carries (1 − p)·U/R, so a load may draw p·(1 − p)·U²/R. With p = ${percentText(level)}, ${lowestText} ${leaves}`;
        },
      }),
    );
  },
  fromScalars: closedForm(meta.bound, {
    required: ['voltage', 'prechargeResistance', 'threshold'],
    optional: ['loadResistance', 'tolerance'],
    formula:
      'P = p·U·((1 − p)·U/R − p·U/L)/(1 + tolerance), L other loads in parallel; where p·U is below half of U·L/(R + L), (U·L/(R + L))²/(4·(R ∥ L)). The load wakes up near its working voltage',
    compute: ({ voltage, prechargeResistance, threshold, loadResistance = [], tolerance = 0 }) =>
      largestConstantPower(voltage, prechargeResistance, parallelResistance(loadResistance), threshold) /
      (1 + tolerance),
  }),
};

/** Loads of constant power, and V from which each draws it. */
function powerLoads({
  circuit,
  conditions,
}: Facts): readonly { readonly part: BoundedPart; readonly wakesAt: number }[] {
  return circuit.elements.flatMap((element) => {
    if (element.kind !== 'load' || element.power === undefined || !element.activeIn.includes('precharge')) return [];
    const part = boundedPart(circuit, conditions, element.id);
    return part === undefined ? [] : [{ part, wakesAt: Math.max(element.startsAbove, CURRENT_LOAD_KNEE) }];
  });
}
