import { describe, expect, it } from 'vitest';
import { pathsPastDisconnect } from '../../../src/facts/topology/paths-past-disconnect.js';
import {
  arrangements,
  changed,
  circuitOf,
  conditions,
  parallel,
  plain,
  resistor,
  series,
  type Wire,
} from './fixtures.js';

const elements = (wires: readonly Wire[]) =>
  pathsPastDisconnect(circuitOf(wires), conditions).map((path) => path.elements);

describe('pathsPastDisconnect', () => {
  it.each(Object.entries(arrangements))('finds none where the disconnect cuts one pole: %s', (_, wires) => {
    expect(elements(wires)).toEqual([]);
  });

  it('finds both halves of a loop that the disconnect leaves', () => {
    const beside = changed(plain, { 'plug-pos': { nodes: ['hp', 'lp'] } });
    expect(pathsPastDisconnect(circuitOf(beside), conditions)).toEqual([
      { elements: ['plug-pos', 'air-pos', 'fuse'], nodes: ['lp', 'hp', 'bf', 'bp'], resistance: 0 },
      { elements: ['air-neg', 'plug-neg'], nodes: ['bn', 'hn', 'ln'], resistance: 0 },
    ]);
  });

  it('finds a pre-charge branch that goes round the disconnect', () => {
    const round = changed(plain, { 'r-pre': { nodes: ['m', 'lp'] } });
    expect(elements(round)).toEqual([
      ['r-pre', 'k-pre', 'fuse'],
      ['air-neg', 'plug-neg'],
    ]);
  });

  it('finds the container in parallel whose line has no disconnect', () => {
    expect(elements(changed(parallel, { 'plug-right-pos': { nodes: ['right-hp', 'lp'] } }))).toEqual([
      ['plug-right-pos', 'air-right-pos'],
      ['air-right-neg', 'plug-right-neg'],
    ]);
  });

  it('cuts two containers in series between them', () => {
    const middle = changed(series, {
      hvd: { nodes: ['mid', 'mid-2'] },
      'plug-rear-pos': { nodes: ['mid-2', 'rp'] },
      'plug-front-pos': { nodes: ['hp', 'lp'] },
    });
    expect(elements(middle)).toEqual([]);
    const cable: Wire = { id: 'link-cable', kind: 'fuse', nodes: ['mid', 'mid-2'], zone: 'vehicle' };
    expect(elements([...middle, cable])).toEqual([
      ['plug-front-pos', 'air-front-pos'],
      ['air-front-neg', 'plug-front-neg', 'link-cable', 'plug-rear-pos', 'air-rear-pos'],
      ['air-rear-neg', 'plug-rear-neg'],
    ]);
  });

  it('counts a resistor round the disconnect below the isolation resistance only', () => {
    expect(elements([...plain, resistor('r', ['vp', 'lp'], 211e3)])).toEqual([]);
    expect(elements([...plain, resistor('r', ['vp', 'lp'], 209e3)])).toHaveLength(2);
  });

  it('does not take a divider across the link for a loop', () => {
    expect(elements([...plain, resistor('r1', ['lp', 'y'], 1000), resistor('r2', ['y', 'ln'], 1000)])).toEqual([]);
  });

  it('shows the ordinary loop where there is no disconnect', () => {
    expect(elements(changed(plain, { hvd: undefined, 'plug-pos': { nodes: ['hp', 'lp'] } }))).toHaveLength(2);
  });
});
