import type { ResolvedCircuit, Resistor } from '../circuit/model.js';
import type { Rise } from '../facts/facts.js';
import { type Judgement, judgeAll, judgeAtMost, MET } from './judgement.js';
import { prechargeAllowance } from './ratings/precharge-allowance.js';

/** Whether the pre-charge resistor stands a rise and a rise into a short, by its power and by its highest temperature. */
export function judgePrechargeResistor(resistor: Resistor, circuit: ResolvedCircuit, rise: Rise): Judgement {
  const { judge } = prechargeAllowance(resistor, circuit);
  return judgeAll([judge(rise.resistorPeakPower), judgeRiseTemperature(resistor, rise)]);
}

/** Nothing to judge where no highest temperature is stated and the power rating says enough. */
export function judgeRiseTemperature({ thermal }: Resistor, { resistorPeakTemperature }: Rise): Judgement {
  if (thermal?.maxTemperature === undefined) return MET;
  const judgement = judgeAtMost(resistorPeakTemperature, thermal.maxTemperature);
  return judgement.notComputable ? MET : judgement;
}
