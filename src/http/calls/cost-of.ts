import type { Request } from '../../verify/read-request.js';
import { costlyParts } from '../../verify/work/costly-parts.js';
import { expectedWork } from '../../verify/work/expected-work.js';
import type { Cost } from '../../verify/work/refuse-costly.js';

/** What judging a circuit, or finding its limits, costs. */
export function costOf(request: Request, findingsOnly = false): Cost {
  const { circuit, rulesets, sensitivities, stock } = request;
  const shape = { rulesets: rulesets.length, findingsOnly, sensitivities, ...(stock === undefined ? {} : { stock }) };
  return {
    pointer: circuit.pointer,
    work: expectedWork(circuit, shape),
    costly: () => [
      ...costlyParts(circuit),
      ...(rulesets.length > 1
        ? [`The circuit is judged under ${rulesets.length} rulesets: ask for one at a time.`]
        : []),
      ...(sensitivities ? ['Sensitivities take as much again: leave them out.'] : []),
      ...(stock === undefined ? [] : ['Parts at hand are tried one by one and in pairs: state fewer in `stock`.']),
    ],
  };
}
