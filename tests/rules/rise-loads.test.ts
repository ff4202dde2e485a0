import { describe, expect, it } from 'vitest';
import { riseLoads, settlesText } from '../../src/rules/rise-loads.js';
import { type PlainCar, plainFacts, q } from '../limits/plain-car.js';

const load = (fields: object) => ({ kind: 'load', zone: 'vehicle', nodes: ['lp', 'ln'], ...fields });
const contact = (rest: 'open' | 'closed', suppliedBy: string) => ({
  kind: 'contact',
  zone: 'vehicle',
  nodes: ['lp', 'y'],
  role: 'other',
  rest,
  suppliedBy,
});
const loadsOf = (parts: NonNullable<PlainCar['parts']>) => riseLoads(plainFacts({ parts }));

describe('the loads of a rise', () => {
  it('are none where the car has none: what else draws is a load to whoever reads of it', () => {
    expect(loadsOf({ 'rise-load': null })).toEqual({ ids: [], names: 'the load', drawing: '', settles: true });
  });

  it('are named, the first five of many', () => {
    const parts = Object.fromEntries(['a', 'b', 'c', 'd', 'e', 'f'].map((id) => [id, load({ current: q(1e-3) })]));
    const { ids, names } = loadsOf(parts);
    expect(ids).toEqual(['a', 'b', 'c', 'd', 'e', 'f', 'rise-load']);
    expect(names).toBe('a, b, c, d, e and 2 more');
  });

  it.each([
    ['open', 'shutdown-circuit', true],
    ['closed', 'shutdown-circuit', false],
    // The default order moves nothing that has a supply of its own.
    ['open', 'independent', false],
    ['closed', 'independent', true],
  ] as const)('hang on the link through a contact %s at rest, fed by %s: %s', (rest, suppliedBy, named) => {
    const parts = { k: contact(rest, suppliedBy), fan: load({ nodes: ['y', 'ln'], current: q(1e-3) }) };
    expect(loadsOf(parts).ids.includes('fan')).toBe(named);
  });

  it.each([
    [{ resistance: q(50_000) }, true],
    [{ current: q(0.01) }, true],
    [{ current: q(0.01), startsAbove: 300 }, false],
    [{ power: q(1) }, false],
  ])('%j lets the link settle: %s', (fields, settles) => {
    const loads = loadsOf({ fan: load(fields) });
    expect(loads.settles).toBe(settles);
    expect(settlesText(loads, 'violated') === 'settles at').toBe(settles);
    expect(settlesText(loads, 'met') === 'settles at').toBe(settles);
  });
});
