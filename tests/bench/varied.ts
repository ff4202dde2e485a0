import { readFileSync } from 'node:fs';
import { readQuantity } from '../../src/circuit/quantity.js';

type Fields = Readonly<Record<string, unknown>>;

export interface Request {
  readonly circuit: Fields & { readonly elements: readonly Fields[] };
  readonly ruleset: string;
}

/** The request of an example car. */
export function exampleRequest(id: string): Request {
  const file = new URL(`../../openapi/examples/${id}.json`, import.meta.url);
  return (JSON.parse(readFileSync(file, 'utf8')) as { readonly request: Request }).request;
}

let turn = 0;

/** The same car with its capacitors larger by a millionth each time, so that no two calls are alike and nothing could be remembered. */
export function varied(request: Request): Request {
  turn += 1;
  const factor = 1 + turn * 1e-6;
  const elements = request.circuit.elements.map((element) =>
    element['kind'] === 'capacitor' ? { ...element, capacitance: scaled(element['capacitance'], factor) } : element,
  );
  return { ...request, circuit: { ...request.circuit, elements } };
}

/** A capacitance in any of the forms that a request may have. */
function scaled(capacitance: unknown, factor: number): unknown {
  if (typeof capacitance === 'object' && capacitance !== null) {
    const fields = Object.entries(capacitance) as [string, unknown][];
    return Object.fromEntries(
      fields.map(([name, value]) => [name, name === 'tolerance' ? value : scaled(value, factor)]),
    );
  }
  const reading = readQuantity(capacitance, 'capacitance');
  if (!('value' in reading)) throw new Error(`${String(capacitance)} is no capacitance`);
  return reading.value * factor;
}
