import type { CoastingFall } from '../../facts/facts.js';
import { fieldNames } from '../field-names.js';
import { figureEvidence } from '../figure-evidence.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { judgeDischarge } from '../judge-discharge.js';
import { type Judgement, judgeTime } from '../judge-figure.js';
import { measuredAgainst } from '../measured-against.js';
import type { Outcome, Rule } from '../rule.js';
import { worstFirst } from '../worst-first.js';

export const rule: Rule = {
  meta: {
    id: 'discharge-while-coasting',
    title: 'The link discharges while the car coasts',
    rationale:
      'A motor that still turns feeds the link through the inverter’s diodes for as long as its back-EMF is above the link. After a shutdown at speed the link then falls no faster than the wheels slow down, whatever the discharge resistor.',
    parameters: ['dischargeVoltage', 'dischargeTime', 'dischargeTimeStrict', 'dischargeClock'],
    messages: {
      met: 'With the machine at full speed when the shutdown circuit opens, {capacitor} falls {limitVoltage} after {worst} at worst ({state}); {limit} is allowed at standstill. The AC side is not computed.',
      violated:
        'With the machine at full speed when the shutdown circuit opens, {capacitor} takes {worst} at worst to fall {limitVoltage} ({state}); {limit} is allowed at standstill. The AC side is not computed.',
      undetermined:
        'How long the link takes to fall {limitVoltage} with the machine turning cannot be told without {fields}.',
      none: 'No machine is described that could feed the link.',
      noCapacitor: 'No capacitor stands on the car’s side of the isolation relays, so nothing has to be discharged.',
      standstill: 'The link does not discharge in time even with the machine at standstill.',
    },
    remedies: {
      warn: 'Tell everybody who works on the car that the link may stay above {volts} for {worst} after a shutdown at speed, and let nobody open it before the wheels stand still; or part the machine from the link at shutdown.',
    },
    inspect:
      'With the wheels lifted, turning fast, an official present: open the shutdown circuit and watch the voltage at the measuring points until the wheels stand.',
  },
  check(facts, ruleset): Outcome {
    const { circuit, coasting } = facts;
    const { dischargeTime, dischargeTimeStrict, dischargeVoltage, dischargeVoltageStrict } = ruleset.conditions;
    const machines = circuit.elements.filter(({ kind }) => kind === 'machine').map(({ id }) => id);
    if (machines.length === 0) return { status: 'not-applicable', message: 'none' };
    if (judgeDischarge(facts, ruleset).some(({ status }) => status === 'violated')) {
      return { status: 'not-applicable', message: 'standstill', causedBy: ['discharge-time'] };
    }
    const judged = coasting
      .map((fall) => ({ fall, ...judgeTime(fall.timeToLimit, dischargeTime, dischargeTimeStrict) }))
      .sort((a, b) => worstFirst(a, b) || (a.worst === b.worst ? 0 : b.worst - a.worst));
    const [gravest] = judged;
    if (gravest === undefined) return { status: 'not-applicable', message: 'noCapacitor' };
    const { status, fall, worst, search } = gravest;
    const texts = formatAgainst(worst, dischargeTime, 's');
    const missing = judged.flatMap((each) => (each.status === 'undetermined' ? each.missing : []));
    const values = {
      capacitor: fall.capacitor,
      state: fall.state,
      worst: texts.value,
      limit: `${dischargeTimeStrict ? 'less than ' : 'at most '}${texts.limit}`,
      volts: formatQuantity(dischargeVoltage, 'V'),
      limitVoltage: `${dischargeVoltageStrict ? 'below' : 'to'} ${formatQuantity(dischargeVoltage, 'V')}`,
      fields: fieldNames(circuit, missing),
    };
    const evidence = {
      ...measuredAgainst({ actual: worst, limit: dischargeTime, side: 'below', unit: 's', search }),
      machines,
      falls: judged.map(asEvidence),
    };
    const elements = [fall.capacitor, ...machines];
    if (status !== 'violated') {
      return { status, message: status, values, evidence, elements, ...(missing.length > 0 ? { missing } : {}) };
    }
    return { status, message: 'violated', values, evidence, elements, remedy: 'warn' };
  },
};

function asEvidence({ fall, status }: { readonly fall: CoastingFall } & Judgement) {
  return {
    state: fall.state,
    capacitor: fall.capacitor,
    status,
    reached: fall.timeToLimit.reached,
    timeToLimit: figureEvidence(fall.timeToLimit),
  };
}
