import { describe, expect, it } from 'vitest';
import { separationStates } from '../../../src/facts/topology/separation-states.js';
import { topology } from '../../../src/facts/topology/topology.js';
import { changed, circuitOf, conditions, parallel, plain, relay, series, type Wire } from './fixtures.js';

const states = (elements: readonly Wire[]) => {
  const circuit = circuitOf(elements);
  return separationStates(circuit, topology(circuit, conditions));
};
const openIn = (elements: readonly Wire[], id = 'shutdown') => states(elements).find((state) => state.id === id)?.open;

describe('separationStates', () => {
  it('opens relays, disconnects and plugs as the state says', () => {
    const resting = ['air-neg', 'air-pos', 'k-pre'];
    expect(states(plain)).toEqual([
      { scenario: 'shutdown', id: 'shutdown', open: resting, gone: [] },
      { scenario: 'disconnect-open', id: 'disconnect-open', open: ['air-neg', 'air-pos', 'hvd', 'k-pre'], gone: [] },
      { scenario: 'container-removed', id: 'container-removed', open: [...resting, 'plug-neg', 'plug-pos'], gone: [] },
      {
        ...{ scenario: 'all-separated', id: 'all-separated', gone: [] },
        open: ['air-neg', 'air-pos', 'hvd', 'k-pre', 'plug-neg', 'plug-pos'],
      },
    ]);
  });

  it('takes each of several containers away, and all together', () => {
    expect(states(series).map(({ id, container }) => [id, container])).toEqual([
      ['shutdown', undefined],
      ['disconnect-open', undefined],
      ['container-removed:front', 'front'],
      ['container-removed:rear', 'rear'],
      ['container-removed', undefined],
      ['all-separated', undefined],
    ]);
    const parted = (id: string) => openIn(parallel, id)?.filter((name) => name.startsWith('plug'));
    expect(parted('container-removed:left')).toEqual(['plug-left-neg', 'plug-left-pos']);
    expect(parted('container-removed')).toHaveLength(4);
  });

  it('takes the container’s elements away where no plug is declared', () => {
    const wired = changed(plain, {
      'plug-pos': undefined,
      'plug-neg': undefined,
      'air-pos': { nodes: ['bf', 'vp'] },
      'r-pre': { nodes: ['m', 'vp'] },
      'air-neg': { nodes: ['bn', 'ln'] },
    });
    expect(states(wired).find(({ id }) => id === 'container-removed')?.gone).toEqual([
      ...['acc', 'air-neg', 'air-pos', 'fuse', 'k-pre', 'r-pre'],
    ]);
    expect(states(wired).find(({ id }) => id === 'disconnect-open')?.gone).toEqual([]);
  });

  it.each([
    ['shutdown-circuit', false],
    [undefined, false],
    ['controller', true],
    ['independent', true],
  ])('a discharge contact closed at rest and supplied by %s: open %s', (suppliedBy, open) => {
    expect(openIn(changed(plain, { 'k-dis': { suppliedBy } }))?.includes('k-dis')).toBe(open);
  });

  it.each(['controller', 'independent'])(
    'a discharge contact open at rest and supplied by %s is no path',
    (suppliedBy) => {
      expect(openIn(changed(plain, { 'k-dis': { suppliedBy, rest: 'open' } }))).toContain('k-dis');
    },
  );

  it('leaves an isolation relay of its own supply closed, and lets a controller’s drop', () => {
    expect(openIn(changed(plain, { 'air-pos': { suppliedBy: 'independent' } }))).not.toContain('air-pos');
    expect(openIn(changed(plain, { 'air-pos': { suppliedBy: 'controller' } }))).toContain('air-pos');
  });

  it('leaves another contact of its own supply as energised', () => {
    const fan = relay('k-x', ['lp', 'x'], {
      role: 'other',
      zone: 'vehicle',
      rest: 'closed',
      suppliedBy: 'independent',
    });
    expect(openIn([...plain, fan])).toContain('k-x');
  });
});
