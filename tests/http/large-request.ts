import { requestExamples } from '../../src/http/openapi/request-examples.js';

interface Body {
  readonly circuit: { readonly elements: readonly object[] };
}

/** The small car of the description with a row of 120 resistors across its link: some 600 states of three times the size. */
export function largeRequest(): Body {
  const { circuit, ...others } = requestExamples['verifyCircuit']?.['smallCar']?.value as Body;
  const count = 120;
  const row = Array.from({ length: count }, (_, k) => ({
    id: `row-${String(k)}`,
    kind: 'resistor',
    role: 'other',
    nodes: [k === 0 ? 'lp' : `row-${String(k)}`, k === count - 1 ? 'ln' : `row-${String(k + 1)}`],
    zone: 'vehicle',
    resistance: { nominal: 10_000 + k, tolerance: 0.05 },
  }));
  return { ...others, circuit: { ...circuit, elements: [...circuit.elements, ...row] } };
}
