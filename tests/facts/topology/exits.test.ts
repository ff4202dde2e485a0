import { describe, expect, it } from 'vitest';
import { exits } from '../../../src/facts/topology/exits.js';
import { topology } from '../../../src/facts/topology/topology.js';
import {
  accumulator,
  arrangements,
  changed,
  circuitOf,
  conditions,
  exact,
  parallel,
  plain,
  plug,
  relay,
  resistor,
  series,
  type Wire,
} from './fixtures.js';

const find = (elements: readonly Wire[]) => {
  const circuit = circuitOf(elements);
  return { circuit, found: exits(circuit, topology(circuit, conditions), conditions) };
};
/** Each exit as [container, polarity, path, cut by or what is wrong]. */
const rows = (elements: readonly Wire[]) =>
  find(elements).found.map(({ pole, path, cutBy, faults, missing }) => [
    ...[pole.container, pole.polarity, path.elements.join(' ')],
    cutBy ?? faults.join(' ') + missing.join(' '),
  ]);
const pointerTo = (elements: readonly Wire[], id: string) => {
  const element = circuitOf(elements).elements.find((candidate) => candidate.id === id);
  return element?.pointer ?? '';
};

describe('exits', () => {
  it.each(Object.entries(arrangements))('finds every exit cut: %s', (_, elements) => {
    for (const { cutBy, faults, missing } of find(elements).found) {
      expect({ faults, missing }).toEqual({ faults: [], missing: [] });
      expect(cutBy).toMatch(/^(air|k-pre)/);
    }
  });

  it('lists one exit for each first contact, from each pole, up to the first node outside', () => {
    expect(rows(plain)).toEqual([
      ['main', 'positive', 'fuse air-pos plug-pos', 'air-pos'],
      ['main', 'positive', 'fuse k-pre r-pre plug-pos', 'k-pre'],
      ['main', 'negative', 'air-neg plug-neg', 'air-neg'],
    ]);
    expect(find(plain).found[1]?.path).toMatchObject({ nodes: ['bp', 'bf', 'm', 'hp', 'vp'], resistance: 1000 });
  });

  it('counts both poles of each of two containers', () => {
    expect(rows(series).map(([container, polarity, , cut]) => [container, polarity, cut])).toEqual([
      ['front', 'positive', 'air-front-pos'],
      ['front', 'positive', 'k-pre'],
      ['front', 'negative', 'air-front-neg'],
      ['rear', 'positive', 'air-rear-pos'],
      ['rear', 'negative', 'air-rear-neg'],
    ]);
    expect(rows(parallel)).toHaveLength(6);
  });

  it.each<[string, Parameters<typeof changed>[1], string]>([
    ['closed at rest', { 'air-pos': { rest: 'closed' } }, 'rest-closed'],
    ['solid-state', { 'air-pos': { construction: 'solid-state' } }, 'solid-state'],
    ['outside', { 'air-pos': { zone: 'vehicle' } }, 'outside-container'],
    ['another role', { 'air-pos': { role: 'other' } }, 'wrong-role'],
    ['in the other container by name', { 'air-pos': { container: 'spare' } }, 'outside-container'],
  ])('says what is wrong with a relay that is %s', (_, changes, fault) => {
    expect(rows(changed(plain, changes)).map((row) => row[3])).toContain(fault);
  });

  it('names both faults of one relay', () => {
    const wrong = changed(plain, { 'air-neg': { rest: 'closed', construction: 'solid-state' } });
    expect(rows(wrong)[2]).toEqual(['main', 'negative', 'air-neg plug-neg', 'rest-closed solid-state']);
  });

  it('reports a pole that nothing cuts', () => {
    const direct = changed(plain, { 'air-neg': undefined, 'plug-neg': { nodes: ['bn', 'ln'] } });
    expect(rows(direct)).toContainEqual(['main', 'negative', 'plug-neg', 'none']);
  });

  it('reports a pre-charge resistor outside ahead of its relay, and both outside', () => {
    const resistorFirst = { 'r-pre': { nodes: ['bf', 'm'], zone: 'vehicle' }, 'k-pre': { nodes: ['m', 'hp'] } };
    expect(rows(changed(plain, resistorFirst))).toContainEqual(['main', 'positive', 'fuse', 'none']);
    const both = { 'r-pre': { zone: 'vehicle' }, 'k-pre': { zone: 'vehicle' } };
    expect(rows(changed(plain, both))).toContainEqual(['main', 'positive', 'fuse', 'outside-container']);
  });

  it('accepts a pre-charge resistor outside behind its relay inside', () => {
    expect(rows(changed(plain, { 'r-pre': { zone: 'vehicle' } })).map((row) => row[3])).toEqual([
      ...['air-pos', 'k-pre', 'air-neg'],
    ]);
  });

  it('reports a pre-charge relay that is solid-state beside a sound isolation relay', () => {
    const row = rows(changed(plain, { 'k-pre': { construction: 'solid-state' } }))[1];
    expect(row).toEqual(['main', 'positive', 'fuse k-pre r-pre plug-pos', 'solid-state']);
  });

  it('accepts a poor contact with a sound isolation relay behind it', () => {
    const two = changed(plain, { 'air-neg': { nodes: ['bx', 'hn'] } }, [
      relay('k-poor', ['bn', 'bx'], { construction: 'solid-state', role: 'other' }),
    ]);
    expect(rows(two)[2]).toEqual(['main', 'negative', 'k-poor air-neg plug-neg', 'air-neg']);
  });

  it('asks for the construction, and for the role of a contact that the circuit does not explain', () => {
    const silent = changed(plain, { 'air-pos': { construction: undefined } });
    expect(find(silent).found[0]).toMatchObject({
      cutBy: 'air-pos',
      faults: [],
      missing: [`${pointerTo(silent, 'air-pos')}/construction`],
    });
    const lead = [
      ...plain,
      relay('k-lead', ['bf', 'y'], { role: undefined }),
      resistor('r-lead', ['y', 'tap'], 10000, { zone: 'container' }),
      { id: 'v', kind: 'meter', nodes: ['tap', 'ln'], zone: 'vehicle', resistance: exact(1e6) } as const,
    ].map((wire) => JSON.parse(JSON.stringify(wire)) as Wire);
    expect(find(lead).found.find(({ path }) => path.elements.includes('k-lead'))).toMatchObject({
      cutBy: 'k-lead',
      missing: [`${pointerTo(lead, 'k-lead')}/role`],
    });
  });

  it('needs no role label on a relay that the circuit explains', () => {
    expect(rows(changed(plain, { 'air-pos': { role: undefined }, 'k-pre': { role: undefined } }))).toEqual(rows(plain));
  });

  it('follows a sense lead below the isolation resistance only (500 Ω/V of 420 V is 210 kΩ)', () => {
    const lead = (ohms: number): Wire[] => [
      ...plain,
      resistor('r-s', ['bn', 's'], ohms, { zone: 'container' }),
      { id: 'v', kind: 'meter', nodes: ['s', 'lp'], zone: 'vehicle', resistance: exact(1e7) },
    ];
    expect(rows(lead(209e3))).toContainEqual(['main', 'negative', 'r-s', 'none']);
    expect(rows(lead(211e3))).toEqual(rows(plain));
  });

  it('finds a tap between two accumulators that leads out', () => {
    const tapped = changed(plain, { acc: { nodes: ['bp', 'tap'] } }, [
      accumulator('acc-2', ['tap', 'bn']),
      plug('plug-tap', ['tap', 'out']),
    ]);
    expect(rows(tapped)).toContainEqual(['main', 'positive', 'plug-tap', 'none']);
  });

  it('reports an accumulator that stands in the car as its own exit', () => {
    const open = changed(plain, { acc: { zone: 'vehicle' } });
    expect(rows(open)[0]).toEqual(['main', 'positive', '', 'none']);
  });
});
