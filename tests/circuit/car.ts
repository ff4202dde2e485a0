/** A small invented car in wire form; every test takes a fresh copy and spoils it in its own way. */
export function car(): CarInput {
  return {
    elements: [
      {
        id: 'pack',
        kind: 'accumulator',
        nodes: ['bp', 'bn'],
        zone: 'container',
        voltage: { min: 280, nominal: 360, max: 400 },
      },
      { id: 'air-pos', kind: 'contact', nodes: ['bp', 'lp'], zone: 'container', rest: 'open', role: 'isolation-relay' },
      { id: 'air-neg', kind: 'contact', nodes: ['bn', 'ln'], zone: 'container', rest: 'open', role: 'isolation-relay' },
      { id: 'pre', kind: 'contact', nodes: ['bp', 'mid'], zone: 'container', rest: 'open', role: 'precharge-relay' },
      {
        id: 'r-pre',
        kind: 'resistor',
        nodes: ['mid', 'lp'],
        zone: 'container',
        resistance: { nominal: '1k', tolerance: 0.05 },
      },
      { id: 'c-link', kind: 'capacitor', nodes: ['lp', 'ln'], zone: 'vehicle', capacitance: '500 µF' },
      { id: 'dis', kind: 'contact', nodes: ['lp', 'd'], zone: 'vehicle', rest: 'closed', role: 'discharge-relay' },
      { id: 'r-dis', kind: 'resistor', nodes: ['d', 'ln'], zone: 'vehicle', resistance: 2200 },
      { id: 'inverter', kind: 'load', nodes: ['lp', 'ln'], zone: 'vehicle', resistance: '200k' },
    ],
  };
}

/** Loose on purpose: tests put faults into it. */
export interface CarInput {
  [field: string]: unknown;
  elements: Array<Record<string, unknown>>;
}

/** The element of that id in the wire form. */
export function part(input: CarInput, id: string): Record<string, unknown> {
  const found = input.elements.find((element) => element['id'] === id);
  if (found === undefined) throw new Error(`the car has no ${id}`);
  return found;
}
