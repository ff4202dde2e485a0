import type { Request } from '../../verify/read-request.js';
import { costlyParts } from '../../verify/work/costly-parts.js';
import { expectedWork } from '../../verify/work/expected-work.js';
import type { Question } from './call.js';

/** What judging a circuit, or finding its limits, costs. */
export function costOf(request: Request): Pick<Question, 'work' | 'costly'> {
  const { circuit, rulesets, sensitivities, stock } = request;
  const shape = { rulesets: rulesets.length, sensitivities, ...(stock === undefined ? {} : { stock }) };
  return {
    work: expectedWork(circuit, shape),
    costly: () => [
      ...costlyParts(circuit),
      ...(rulesets.length > 1
        ? [`The circuit is judged under ${rulesets.length} rulesets: ask for one at a time.`]
        : []),
      ...(stock === undefined ? [] : ['Parts at hand are tried one by one and in pairs: state fewer in `stock`.']),
    ],
  };
}
