import { car } from './car.js';
import type { FaultCase } from './fault-case.js';
import { faultsOfForm } from './faults-of-form.js';
import { faultsOfMeaning } from './faults-of-meaning.js';

export const faultCases: readonly FaultCase[] = [...faultsOfForm, ...faultsOfMeaning];

/** The sound car, spoilt. */
export function spoilt(faultCase: FaultCase): unknown {
  const input = car();
  faultCase.spoil(input);
  return 'instead' in faultCase ? faultCase.instead : input;
}
