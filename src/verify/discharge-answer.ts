import type { Facts, Fall, FallVoltage, SeparationState } from '../facts/facts.js';
import type { Figure } from '../facts/figure.js';
import { noFigure } from '../facts/figures/figure-of.js';
import { notComputable, type NotComputable } from '../facts/figures/not-computable.js';
import { separationStates } from '../facts/topology/separation-states.js';
import { judgeFallVoltage } from '../rules/judge-discharge.js';
import type { Ruleset } from '../rules/ruleset.js';
import { figureAnswer, timeFigureAnswer } from './figure-answer.js';
import type { Report } from './report.js';
import { sensitivities } from './sensitivities.js';

type DischargeAnswer = Report['discharge'][number];

/**
 * Every separation state as a report states it; one whose fall cannot be computed has no figures.
 * @param sensitive whether the times shall say which parts move them most
 */
export function dischargeAnswers(facts: Facts, ruleset: Ruleset, sensitive = false): DischargeAnswer[] {
  const open = (state: SeparationState, error: unknown): DischargeAnswer => {
    const refused = notComputable(facts.circuit, error);
    if (refused === undefined) throw error;
    return openAnswer(state, refused, ruleset);
  };
  let falls: readonly Fall[];
  try {
    falls = facts.falls;
  } catch (error) {
    return separationStates(facts.circuit, facts.topology).map((state) => open(state, error));
  }
  return falls.map((fall) => {
    try {
      return dischargeAnswer(fall, ruleset, sensitive);
    } catch (error) {
      return open(fall.state, error);
    }
  });
}

function openAnswer(
  state: SeparationState,
  { reason, missing }: NotComputable,
  { conditions }: Ruleset,
): DischargeAnswer {
  return {
    ...nameOf(state),
    required: state.scenario === 'shutdown' || conditions.separationStates.includes(state.scenario),
    startVoltage: figureAnswer(noFigure(reason, missing), 'V'),
    resistorEnergy: [],
    continuousPower: [],
    path: [],
    satisfied: null,
  };
}

function nameOf({ id, scenario, container }: SeparationState) {
  return { id, scenario, ...(container === undefined ? {} : { container }) };
}

/** The slowest voltage speaks for its state. */
function dischargeAnswer(fall: Fall, ruleset: Ruleset, sensitive: boolean): DischargeAnswer {
  const { state, worst } = fall;
  return {
    ...nameOf(state),
    required: fall.required,
    ...(worst === undefined ? {} : { voltage: worst.id, timeToLimit: timeAnswer(worst, sensitive) }),
    startVoltage: figureAnswer(fall.startVoltage, 'V'),
    ...(worst === undefined ? {} : { voltageAtLimit: figureAnswer(worst.voltageAtLimit, 'V') }),
    resistorEnergy: byElement(fall.resistorEnergy, 'J'),
    continuousPower: byElement(fall.continuousPower, 'W'),
    path: worst === undefined ? [] : [...worst.path],
    satisfied: satisfied(fall, ruleset),
  };
}

function timeAnswer(voltage: FallVoltage, sensitive: boolean) {
  const { timeToLimit } = voltage;
  const answer = timeFigureAnswer(timeToLimit);
  if (!sensitive) return answer;
  return { ...answer, sensitivities: sensitivities(timeToLimit.nominal, voltage.timeToLimitMoves()) };
}

function byElement(figures: ReadonlyMap<string, Figure>, unit: string) {
  return [...figures]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([element, figure]) => ({ element, ...figureAnswer(figure, unit) }));
}

/** Every watched voltage is judged as the rule `discharge-time` does; a state with nothing to watch has nothing to wait for. */
function satisfied(fall: Fall, ruleset: Ruleset): boolean | null {
  const statuses = fall.voltages.map((voltage) => judgeFallVoltage(fall, voltage, ruleset).status);
  if (statuses.includes('violated')) return false;
  return statuses.includes('undetermined') ? null : true;
}
