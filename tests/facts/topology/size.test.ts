import { describe, expect, it } from 'vitest';
import { defaultSequence } from '../../../src/facts/topology/default-sequence.js';
import { exits } from '../../../src/facts/topology/exits.js';
import { exposures } from '../../../src/facts/topology/exposures.js';
import { pathsPastDisconnect } from '../../../src/facts/topology/paths-past-disconnect.js';
import { topology } from '../../../src/facts/topology/topology.js';
import { accumulator, circuitOf, conditions, exact, plug, relay, resistor, type Wire } from './fixtures.js';

/** The largest circuits a request may hold, in the shapes that make searches long. */
const many = (count: number, make: (index: number) => Wire[]): Wire[] =>
  Array.from({ length: count }, (_, i) => make(i)).flat();

const end: Wire[] = [{ id: 'c', kind: 'capacitor', nodes: ['lp', 'ln'], zone: 'vehicle', capacitance: exact(1e-3) }];
const shapes: Record<string, Wire[]> = {
  'containers in series': [
    ...many(28, (index) => {
      const name = `x${String(index)}`;
      const from = index === 0 ? 'lp' : `m${String(index)}`;
      const to = index === 27 ? 'ln' : `m${String(index + 1)}`;
      return [
        accumulator(`acc-${name}`, [`${name}-p`, `${name}-n`], name, 20),
        relay(`air-p-${name}`, [`${name}-p`, `${name}-hp`], { container: name }),
        relay(`air-n-${name}`, [`${name}-n`, `${name}-hn`], { container: name }),
        relay(`k-${name}`, [`${name}-p`, `${name}-m`], { container: name, role: 'precharge-relay' }),
        resistor(`r-${name}`, [`${name}-m`, `${name}-hp`], 1000, { zone: 'container', container: name }),
        plug(`plug-p-${name}`, [`${name}-hp`, from], name),
        plug(`plug-n-${name}`, [`${name}-hn`, to], name),
      ];
    }),
    ...end,
  ],
  'containers in parallel': [
    ...many(49, (index) => {
      const name = `x${String(index)}`;
      return [
        accumulator(`acc-${name}`, [`${name}-p`, `${name}-n`], name),
        relay(`air-p-${name}`, [`${name}-p`, 'lp'], { container: name }),
        relay(`air-n-${name}`, [`${name}-n`, 'ln'], { container: name }),
        resistor(`r-${name}`, ['lp', `z${String(index)}`], 1e4),
      ];
    }),
    ...end,
  ],
  'a mesh of resistors without labels': [
    accumulator('acc', ['bp', 'bn']),
    relay('air-p', ['bp', 'lp'], { role: undefined }),
    relay('air-n', ['bn', 'ln'], { role: undefined }),
    ...many(190, (index) => {
      const node = (place: number): string =>
        place % 13 === 0 ? 'lp' : place % 17 === 0 ? 'ln' : `g${String(place % 29)}`;
      const [a, b] = [node(index), node(index * 7 + 3)];
      return a === b ? [] : [resistor(`r-${String(index)}`, [a, b], 10000 + index)];
    }),
    ...end,
  ].map((wire) => JSON.parse(JSON.stringify(wire)) as Wire),
};

describe('the largest circuits', () => {
  it.each(Object.entries(shapes))('are answered without delay: %s', (_, elements) => {
    expect(elements.length).toBeLessThanOrEqual(200);
    const circuit = circuitOf(elements);
    const start = performance.now();
    const parts = topology(circuit, conditions);
    expect(exits(circuit, parts, conditions).length).toBeGreaterThan(0);
    expect(exposures(circuit, conditions)).toEqual([]);
    expect(pathsPastDisconnect(circuit, conditions).length).toBeGreaterThan(1);
    expect(defaultSequence(circuit, parts, conditions, { release: false }).length).toBeGreaterThan(0);
    // A fiftieth of this on an idle machine of two cores; the rest is for slow ones.
    expect(performance.now() - start).toBeLessThan(5000);
  });
});
