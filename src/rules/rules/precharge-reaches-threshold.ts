import { elementById } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import { limit as largestResistance } from '../../limits/limits/precharge-resistance-max-loads.js';
import { dischargeContactFault } from '../discharge-contact-fault.js';
import { elementsOf } from '../elements-of.js';
import { figureEvidence } from '../figure-evidence.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { fieldNames } from '../field-names.js';
import { judgeFigure } from '../judge-figure.js';
import { measuredAgainst } from '../measured-against.js';
import { largestPreferred } from '../preferred-value.js';
import { relativeTolerance } from '../relative-tolerance.js';
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
        'Reduce {resistor} to a nominal value below {bound}; {preferred} leaves a margin of at least 20 % and reaches the threshold as set. Or take {loads} off the link until the last relay has closed.',
      unload:
        'Take {loads} off the link until the last relay has closed. Or reduce {resistor} to a nominal value below {bound}, and see what the first instant then asks of it and of its relay; {preferred} leaves a margin of at least 20 % and reaches the threshold as set.',
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
 * The bound is the limit's, so that a finding and the limits beside it say the same. The value advised is tried on the circuit
 * itself, and reaches the car's own threshold too.
 */
function smallerResistance(facts: Facts, id: string | undefined, level: number) {
  const resistor = id === undefined ? undefined : elementById(facts.circuit, id);
  if (resistor?.kind !== 'resistor') return undefined;
  const tolerance = relativeTolerance(resistor.resistance, facts.conditions.assumedTolerance.resistor);
  const bound = largestResistance.compute(facts).find(({ element }) => element === id)?.nominal ?? 0;
  const { method, threshold = 0, comparisonError = 0 } = facts.circuit.control.precharge ?? {};
  const limit = method === 'timer' ? level : Math.max(level, threshold + comparisonError);
  const preferred = largestPreferred(bound, (nominal) => {
    const ratio = facts.vary(resistor.id, nominal * (1 + tolerance)).rise.steadyRatio;
    return judgeFigure(ratio, { side: 'above', limit, strict: true }).status === 'met';
  });
  if (preferred === undefined) return undefined;
  return { resistor: resistor.id, bound: formatQuantity(bound, 'Ω'), preferred: formatQuantity(preferred, 'Ω') };
}
