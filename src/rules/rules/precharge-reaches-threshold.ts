import type { Facts } from '../../facts/facts.js';
import { limit as largestForLevel } from '../../limits/limits/precharge-resistance-max-loads.js';
import { limit as largestForSetting } from '../../limits/limits/precharge-resistance-max-setting.js';
import { dischargeContactFault } from '../discharge-contact-fault.js';
import { elementsOf } from '../elements-of.js';
import { figureEvidence } from '../figure-evidence.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { fieldNames } from '../field-names.js';
import { judgeFigure } from '../judge-figure.js';
import { largestPrechargeResistance, preferredPrechargeResistance } from '../largest-precharge-resistance.js';
import { measuredAgainst } from '../measured-against.js';
import { riseLoads, settlesText } from '../rise-loads.js';
import type { Outcome, Rule } from '../rule.js';

/** Ω; the largest resistance that a description may hold. */
const AS_GOOD_AS_OPEN = 1e12;

export const rule: Rule = {
  meta: {
    id: 'precharge-reaches-threshold',
    title: 'The link charges above the level at which the last relay may close',
    rationale:
      'Whatever draws current while the link is charging forms a divider with the pre-charge resistor, so the link settles below the accumulator. If it settles below the level, the last relay either never closes or closes onto a step that welds it.',
    parameters: ['threshold'],
    messages: {
      met: 'At worst the link {settles} {worst} of the accumulator voltage{drawing}; more than {level} is required.',
      violated:
        'At worst the link {settles} {worst} of the accumulator voltage during pre-charge{drawing}; more than {level} is required.',
      undetermined:
        'With the tolerances stated the link {settles} more than {level} of the accumulator voltage{drawing}, but only {worst} with those assumed for {fields}.',
      notComputable: 'The voltage that the link gets to cannot be computed without {fields}.',
      noPath:
        'No path charges the link: with the pre-charge relay closed it stays at 0 %, and more than {level} is required.',
    },
    remedies: {
      reduceResistance:
        'Reduce {resistor} to a nominal value below {bound}{advice}. Check its other limits afterwards. Or take {loads} off the link until the last relay has closed.',
      unload:
        'Take {loads} off the link until the last relay has closed. Or reduce {resistor} to a nominal value below {bound}{advice}. See then what the first instant asks of it and of its relay.',
      removeLoad:
        'Take {loads} off the link until the last relay has closed; no pre-charge resistance alone was found to cure it.',
      repair: 'Cure first what connects the discharge during pre-charge: see the finding named as the cause.',
      addPath: 'Bring the pre-charge relay and its resistor in series across the isolation relay that closes last.',
    },
    inspect:
      'Find everything connected to the vehicle side of the isolation relays during pre-charge (meters, converters, discharge resistor) and read the value printed on the pre-charge resistor.',
  },
  check(facts, ruleset): Outcome {
    const { steadyRatio, resistor } = facts.rise;
    const { threshold } = ruleset.conditions;
    const path = facts.topology.prechargePath;
    const loads = riseLoads(facts);
    const elements = [...path, ...loads.ids];
    const judgement = judgeFigure(steadyRatio, { side: 'above', limit: threshold, strict: true });
    const settles = steadyRatio.reason === 'no-path' ? 0 : Math.max(0, judgement.worst);
    const evidence = {
      ...measuredAgainst({ actual: settles, limit: threshold, side: 'above', unit: 'ratio', search: judgement.search }),
      path,
      steadyRatio: figureEvidence(steadyRatio),
      threshold,
    };
    const level = formatQuantity(threshold, '%');
    if (steadyRatio.reason === 'no-path') {
      const charging = { status: 'violated', message: 'noPath', remedy: 'addPath' } as const;
      return { ...charging, values: { level }, evidence, elements: path };
    }
    const { status, missing } = judgement;
    // A load of constant power can pull the link down to nothing; there is then no lowest ratio but zero.
    const worst = Math.max(0, judgement.worst);
    const texts = formatAgainst(worst, threshold, '%');
    const values = {
      worst: texts.value,
      level: texts.limit,
      fields: fieldNames(facts.circuit, missing),
      settles: settlesText(loads, status),
      drawing: loads.drawing,
      loads: loads.names,
    };
    if (judgement.notComputable) return { status, message: 'notComputable', values, evidence, elements, missing };
    if (status !== 'violated') return { status, message: status, values, evidence, elements, missing };
    if (dischargeLoadsRise(facts, threshold)) {
      const causedBy = ['discharge-fail-safe'];
      const loading = facts.topology.dischargeResistors;
      return { status, message: 'violated', values, evidence, elements: loading, remedy: 'repair', causedBy };
    }
    const cure = smallerResistance(facts, resistor, threshold);
    const violated = {
      status,
      message: 'violated',
      evidence,
      elements: resistor === undefined ? elements : [resistor, ...loads.ids],
    } as const;
    return cure === undefined
      ? { ...violated, values, remedy: 'removeLoad' }
      : { ...violated, values: { ...values, ...cure }, remedy: loads.ids.length > 0 ? 'unload' : 'reduceResistance' };
  },
};

/** True where a discharge contact that does not do as it must loads the rise, and the level would be reached without. */
function dischargeLoadsRise(facts: Facts, level: number): boolean {
  const { circuit, topology } = facts;
  const contacts = elementsOf(circuit, topology.dischargeContacts, 'contact');
  if (contacts.every((contact) => dischargeContactFault(contact) === undefined)) return false;
  return topology.dischargeResistors.some((id) => {
    const without = facts.vary(id, AS_GOOD_AS_OPEN).rise.steadyRatio;
    return judgeFigure(without, { side: 'above', limit: level, strict: true }).status === 'met';
  });
}

/**
 * The bound is the limit's, so that a finding and the limits beside it say the same; the value advised keeps its margin to the
 * car's own threshold too, where some resistance reaches that.
 */
function smallerResistance(facts: Facts, resistor: string | undefined, level: number) {
  const { bound } = largestPrechargeResistance(facts, largestForLevel);
  if (resistor === undefined || bound === undefined) return undefined;
  const set = largestPrechargeResistance(facts, largestForSetting);
  const { method, threshold = 0, comparisonError = 0 } = facts.circuit.control.precharge ?? {};
  const limit = set.hopeless || method === 'timer' ? level : Math.max(level, threshold + comparisonError);
  const preferred = preferredPrechargeResistance(facts, Math.min(bound, set.bound ?? bound), limit);
  const upTo =
    set.bound === undefined
      ? ''
      : ` and to ${formatQuantity(set.bound, 'Ω')}, up to which the threshold as set is reached`;
  const margin =
    preferred === undefined
      ? ''
      : `; ${formatQuantity(preferred, 'Ω')} leaves a margin of at least 20 % to that${upTo}`;
  const without = set.hopeless ? '; no resistance alone reaches the threshold as set' : '';
  return { resistor, bound: formatQuantity(bound, 'Ω'), advice: `${margin}${without}` };
}
