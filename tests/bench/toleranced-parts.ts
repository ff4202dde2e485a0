import { readCircuit } from '../../src/circuit/index.js';
import { rulesetById } from '../../src/rules/index.js';
import { verifyCircuit } from '../../src/verify/verify-circuit.js';
import { alternate } from './measure.js';
import { exampleRequest, type Request, varied } from './varied.js';

type Fields = Readonly<Record<string, unknown>>;

/** Runs before anything is counted: the engine compiles a verification's thousands of functions for about this long. */
const WARM = 600;

/** A whole verification in process by the number of parts whose tolerance is stated. */
export function tolerancedParts(): void {
  console.log('one verification in process, by toleranced parts (values distinct each time)');
  const [few, many] = [8, 30].map((count) => withTolerances(exampleRequest('sound-rear-pack'), count));
  if (few === undefined || many === undefined) return;
  const eight = (): void => verify(varied(few));
  const thirty = (): void => verify(varied(many));
  for (let run = 0; run < WARM; run += 1) {
    eight();
    thirty();
  }
  const { first, second, ratio, least, most } = alternate(eight, thirty, 5, 1);
  console.log(
    `  8 parts ${(1 / first).toFixed(0)} a second, 30 parts ${(1 / second).toFixed(0)}: ${ratio.toFixed(2)} (${least.toFixed(2)} to ${most.toFixed(2)}) times the time`,
  );
}

function verify(request: Request): void {
  const reading = readCircuit(request.circuit, '#/circuit');
  const ruleset = rulesetById(request.ruleset);
  if (!('circuit' in reading) || ruleset === undefined) throw new Error('the example cannot be read');
  verifyCircuit({ circuit: reading.circuit, ruleset });
}

/** The same car with the tolerances of so many parts; those that it lacks come of meters of some MΩ across its link. */
function withTolerances(request: Request, count: number): Request {
  let left = count;
  const elements: Fields[] = request.circuit.elements.map((element) => {
    const fields = Object.entries(element).map(([name, value]): [string, unknown] => {
      if (!isToleranced(value)) return [name, value];
      left -= 1;
      return [name, left >= 0 ? value : { nominal: value['nominal'], tolerance: 0 }];
    });
    return Object.fromEntries(fields);
  });
  const nodes = request.circuit['link'] ?? ['lp', 'ln'];
  for (let k = 0; left > 0; k += 1, left -= 1) {
    const resistance = { nominal: (2 + k) * 1e6, tolerance: 0.05 };
    elements.push({ id: `logger-${String(k)}`, kind: 'meter', nodes, zone: 'vehicle', role: 'other', resistance });
  }
  return { ...request, circuit: { ...request.circuit, elements } };
}

function isToleranced(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && 'nominal' in value;
}
