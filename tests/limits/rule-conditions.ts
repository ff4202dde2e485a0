import { elementById, type ResolvedCircuit, type Resistor } from '../../src/circuit/model.js';
import { createFacts } from '../../src/facts/create-facts.js';
import type { Facts } from '../../src/facts/facts.js';
import type { Figure } from '../../src/facts/figure.js';
import type { LimitRecord } from '../../src/limits/index.js';
import { judgeDischarge } from '../../src/rules/judge-discharge.js';
import { judgeFigure, judgeTime } from '../../src/rules/judge-figure.js';
import { judgePower } from '../../src/rules/judge-power.js';
import { ROUNDING } from '../../src/rules/rounding.js';
import { rules } from '../../src/rules/rules.js';
import type { Ruleset } from '../../src/rules/ruleset.js';

export interface RuleCondition {
  /** The circuit with what is bounded at the nominal. */
  readonly moved: (facts: Facts, record: LimitRecord, nominal: number) => Facts;
  /** Whether the part of the rule that the limit serves is met, by the rules' own judges. */
  readonly met: (facts: Facts, ruleset: Ruleset, record: LimitRecord) => boolean;
}

const reaches = ({ rise }: Facts, level: number): boolean =>
  judgeFigure(rise.steadyRatio, { side: 'above', limit: level, strict: true }).status === 'met';

const atMost = (figure: Figure, limit: number): boolean =>
  judgeFigure(figure, { side: 'below', limit, strict: false }).status === 'met';

/** Before the timeout; where a timer ends it, in half the timer's time and half a second before its end: EV.5.6.2 of collegiate-ev-2024. */
const inTime = ({ rise, circuit, conditions }: Facts): boolean => {
  const { method, timeout = 0, delay = 0 } = circuit.control.precharge ?? {};
  if (method !== 'timer') return judgeTime(rise.timeToThreshold, timeout, true).status === 'met';
  const longest = Math.min(delay / 2, delay - 0.5);
  return judgeTime(rise.timeTo(conditions.threshold), longest, false).status === 'met';
};

const falls = (facts: Facts, ruleset: Ruleset): boolean =>
  judgeDischarge(facts, ruleset).every(({ status }) => status === 'met');

/** By the rule itself: for limits that bound all that it asks. */
const ruleMet =
  (id: string): RuleCondition['met'] =>
  (facts, ruleset) => {
    const rule = rules.find(({ meta }) => meta.id === id);
    if (rule === undefined) throw new Error(`there is no rule ${id}`);
    return rule.check(facts, ruleset, () => []).status === 'met';
  };

const standsLink = ({ circuit, falls: all }: Facts, { conditions }: Ruleset, { element = '' }: LimitRecord): boolean =>
  all.every(({ continuousPower }) => {
    const power = continuousPower.get(element);
    if (power === undefined) return true;
    return judgePower(resistorOf(circuit, element), circuit, power, conditions.dischargeRatingTime).status === 'met';
  });

const riseCurrent = ({ circuit, topology, rise }: Facts): boolean => {
  const completing = topology.isolationRelays.filter((id) => !topology.bridgedRelays.includes(id));
  const demands = [
    ...topology.prechargeRelays.flatMap((id) =>
      ['makingCurrent', 'breakingCurrent', 'carryingCurrent'].map((name) => [id, name] as const),
    ),
    ...completing.map((id) => [id, 'makingCurrent'] as const),
  ];
  return demands.every(([id, name]) => {
    const relay = elementById(circuit, id);
    const rated = relay?.kind === 'contact' ? relay.ratings?.[name as 'makingCurrent'] : undefined;
    return rated !== undefined && atMost(rise.peakCurrent, rated);
  });
};

/** By the part's own tolerance towards the bound. */
const byValue: RuleCondition['moved'] = (facts, record, nominal) => {
  const value = record.value ?? Number.NaN;
  const tolerance = record.bound === 'max' ? value / (record.nominal ?? 0) - 1 : 1 - value / (record.nominal ?? 0);
  return facts.withValue(record.element ?? '', { nominal, tolerance: Math.max(0, tolerance) });
};

const byRating: RuleCondition['moved'] = ({ circuit, conditions }, { element = '' }, nominal) => {
  const resistor = resistorOf(circuit, element);
  const field = resistor.mounting === 'free-air' ? 'powerFreeAir' : 'power';
  return createFacts(
    replaced(circuit, { ...resistor, ratings: { ...resistor.ratings, [field]: nominal } }),
    conditions,
  );
};

const bySetting: RuleCondition['moved'] = ({ circuit, conditions }, _, nominal) => {
  const control = { ...circuit.control, precharge: { ...circuit.control.precharge, threshold: nominal } };
  return createFacts({ ...circuit, control }, conditions);
};

/**
 * The inrush cannot be set, so the rating is: to where the inrush is `nominal` of it. A rating is in no figure, so the figures stay.
 */
const byMakingCurrent: RuleCondition['moved'] = (facts, { element = '', value, present }, nominal) => {
  const relay = elementById(facts.circuit, element);
  if (relay?.kind !== 'contact') throw new Error(`${element} is no contact`);
  const makingCurrent = (present ?? 0) * ((value ?? 0) / nominal);
  const circuit = replaced(facts.circuit, { ...relay, ratings: { ...relay.ratings, makingCurrent } });
  return Object.create(facts, { circuit: { value: circuit } }) as Facts;
};

/** What each limit's rule asks, spelled out with the rules' own judges. */
export const ruleConditions: Readonly<Record<string, RuleCondition>> = {
  'precharge-resistance-max-loads': {
    moved: byValue,
    met: (facts, { conditions }) => reaches(facts, conditions.threshold),
  },
  'precharge-load-resistance-min': {
    moved: byValue,
    met: (facts, { conditions }) => reaches(facts, conditions.threshold),
  },
  'constant-power-load-max': { moved: byValue, met: (facts, { conditions }) => reaches(facts, conditions.threshold) },
  'precharge-resistance-max-setting': {
    moved: byValue,
    met: (facts) => {
      const { threshold = 0, comparisonError = 0 } = facts.circuit.control.precharge ?? {};
      return reaches(facts, threshold + comparisonError);
    },
  },
  'precharge-resistance-max-time': { moved: byValue, met: inTime },
  'link-capacitance-max-precharge': { moved: byValue, met: inTime },
  'precharge-resistance-min-current': { moved: byValue, met: riseCurrent },
  'precharge-resistance-min-energy': { moved: byValue, met: ruleMet('precharge-resistor-rating') },
  'precharge-power-rating-min': { moved: byRating, met: ruleMet('precharge-resistor-rating') },
  'precharge-threshold-setting-min': {
    moved: bySetting,
    met: ({ circuit, conditions }) => {
      const { threshold = 0, comparisonError = 0 } = circuit.control.precharge ?? {};
      return threshold - comparisonError >= conditions.threshold - ROUNDING;
    },
  },
  'second-contact-inrush-max': {
    moved: byMakingCurrent,
    met: ({ circuit, rise, sequence, lastClosure }, _, { element = '' }) => {
      const relay = elementById(circuit, element);
      const rated = relay?.kind === 'contact' ? relay.ratings?.makingCurrent : undefined;
      const current = sequence.source === 'stated' ? lastClosure?.current : rise.currentAtSecondClosure;
      return rated !== undefined && current !== undefined && atMost(current, rated);
    },
  },
  'discharge-resistance-max-time': { moved: byValue, met: falls },
  'link-capacitance-max-discharge': { moved: byValue, met: falls },
  'discharge-resistance-min-power': { moved: byValue, met: standsLink },
  'discharge-power-rating-min': { moved: byRating, met: standsLink },
  'measuring-point-resistance': { moved: byValue, met: ruleMet('measuring-points') },
};

function resistorOf(circuit: ResolvedCircuit, id: string): Resistor {
  const element = elementById(circuit, id);
  if (element?.kind !== 'resistor') throw new Error(`${id} is no resistor`);
  return element;
}

function replaced(circuit: ResolvedCircuit, element: ResolvedCircuit['elements'][number]): ResolvedCircuit {
  return { ...circuit, elements: circuit.elements.map((each) => (each.id === element.id ? element : each)) };
}
