import type { Fall } from '../facts/facts.js';
import type { Figure } from '../facts/figure.js';
import { judgeFallVoltage } from '../rules/judge-discharge.js';
import type { Ruleset } from '../rules/ruleset.js';
import { figureAnswer, timeFigureAnswer } from './figure-answer.js';
import type { Report } from './report.js';

/** One separation state as a report states it: the slowest voltage speaks for it. */
export function dischargeAnswer(fall: Fall, ruleset: Ruleset): Report['discharge'][number] {
  const { state, worst } = fall;
  return {
    id: state.id,
    scenario: state.scenario,
    ...(state.container === undefined ? {} : { container: state.container }),
    required: fall.required,
    ...(worst === undefined ? {} : { voltage: worst.id, timeToLimit: timeFigureAnswer(worst.timeToLimit) }),
    startVoltage: figureAnswer(fall.startVoltage, 'V'),
    ...(worst === undefined ? {} : { voltageAtLimit: figureAnswer(worst.voltageAtLimit, 'V') }),
    resistorEnergy: byElement(fall.resistorEnergy, 'J'),
    continuousPower: byElement(fall.continuousPower, 'W'),
    path: worst === undefined ? [] : [...worst.path],
    satisfied: satisfied(fall, ruleset),
  };
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
