import { describe, expect, it } from 'vitest';
import { exposures } from '../../../src/facts/topology/exposures.js';
import { arrangements, changed, circuitOf, conditions, exact, plain, resistor, series, type Wire } from './fixtures.js';

const find = (elements: readonly Wire[]) => exposures(circuitOf(elements), conditions);
const at = (elements: readonly Wire[], node: string, polarity = 'positive') =>
  find(elements).find((exposure) => exposure.node === node && exposure.pole.polarity === polarity);

/** A sense lead from the fused positive pole to a meter in the car. */
const senseLead = (ohms: unknown, zone: string): Wire[] => [
  ...plain,
  resistor('r-sense', ['bf', 's'], 1, { resistance: ohms, zone }),
  { id: 'v', kind: 'meter', nodes: ['s', 's-n'], zone: 'vehicle', resistance: exact(1e7) },
];

describe('exposures', () => {
  it.each(Object.entries(arrangements))('finds nothing live at rest: %s', (_, elements) => {
    expect(find(elements)).toEqual([]);
  });

  it('finds a pre-charge resistor outside ahead of its relay', () => {
    const wrong = changed(plain, {
      'r-pre': { nodes: ['bf', 'm'], zone: 'vehicle' },
      'k-pre': { nodes: ['m', 'hp'] },
    });
    expect(at(wrong, 'bf')).toMatchObject({
      dangerous: true,
      aheadOutside: true,
      touches: ['r-pre'],
      path: { elements: ['fuse'], nodes: ['bp', 'bf'] },
      resistance: 0,
      current: Infinity,
    });
    expect(at(wrong, 'm')).toMatchObject({ dangerous: true, path: { elements: ['fuse', 'r-pre'] }, resistance: 1000 });
  });

  it('finds relay and resistor both outside', () => {
    const wrong = changed(plain, { 'r-pre': { zone: 'vehicle' }, 'k-pre': { zone: 'vehicle' } });
    expect(at(wrong, 'bf')).toMatchObject({ dangerous: true, touches: ['k-pre'] });
    expect(find(wrong)).toHaveLength(1);
  });

  it('finds a resistor inside that feeds a relay outside, with the current into a short', () => {
    const wrong = changed(plain, {
      'r-pre': { nodes: ['bf', 'm'] },
      'k-pre': { nodes: ['m', 'hp'], zone: 'vehicle' },
    });
    // 420 V across 1 kΩ.
    expect(at(wrong, 'm')).toMatchObject({ dangerous: true, aheadOutside: true, resistance: 1000, current: 0.42 });
  });

  // 420 V. Without a stated internal resistance a wire of 0.9 Ω is no limit, one of 1 Ω is.
  it.each([
    [undefined, 0.9, Infinity],
    [undefined, 1, 420],
    [0.1, 0, 4200],
    [0.1, 0.9, 420],
    [0.1, 1000, 420 / 1000.1],
  ])('adds the accumulator’s own %s Ω to a path of %s Ω: a short takes %s A', (inside, ohms, amperes) => {
    const wrong = changed(senseLead(exact(ohms), 'container'), {
      acc: { resistance: inside === undefined ? undefined : exact(inside) },
    });
    const current = at(wrong, 's')?.current ?? Number.NaN;
    expect(Number.isFinite(current)).toBe(Number.isFinite(amperes));
    if (Number.isFinite(amperes)) expect(current).toBeCloseTo(amperes, 9);
  });

  it('takes the smallest internal resistance that the container’s own accumulators state', () => {
    const two = changed(series, {
      'acc-front': { resistance: { nominal: 0.1, tolerance: 0.2 } },
      'acc-rear': { resistance: exact(0.01) },
      'air-front-neg': { rest: 'closed' },
    });
    const exposure = at(two, 'mid', 'negative');
    // Both containers in series count for the voltage, 315 V each at most; 0.1 Ω less 20 %.
    expect((exposure?.current ?? 0) * 0.08).toBeCloseTo(630, 6);
  });

  it('finds nothing where a relay inside feeds a resistor outside', () => {
    expect(find(changed(plain, { 'r-pre': { zone: 'vehicle' } }))).toEqual([]);
  });

  it('judges a sense lead by where its resistor is', () => {
    const inside = at(senseLead(exact(1e6), 'container'), 's');
    expect(inside).toMatchObject({ dangerous: false, aheadOutside: false, resistance: 1e6, missing: [] });
    expect(inside?.current).toBeCloseTo(420e-6, 12);
    expect(at(senseLead(exact(1e6), 'vehicle'), 's')).toMatchObject({ dangerous: true, aheadOutside: true });
  });

  it.each([
    [211e3, false],
    [210e3, false],
    [209e3, true],
  ])('sets the bound at 500 Ω/V of 420 V: %s Ω, dangerous %s', (ohms, dangerous) => {
    expect(at(senseLead(exact(ohms), 'container'), 's')?.dangerous).toBe(dangerous);
  });

  it('takes the smallest value of a stated tolerance, and asks for one that is not stated where it matters', () => {
    expect(at(senseLead({ nominal: 220e3, tolerance: 0.05 }, 'container'), 's')?.dangerous).toBe(true);
    const bare = senseLead('220 kΩ', 'container');
    const pointer = circuitOf(bare).elements.find(({ id }) => id === 'r-sense')?.pointer ?? '';
    expect(at(bare, 's')).toMatchObject({ dangerous: false, missing: [`${pointer}/resistance`] });
    expect(at(senseLead('300 kΩ', 'container'), 's')).toMatchObject({ dangerous: false, missing: [] });
  });

  it('puts resistors in parallel together', () => {
    const two = [...senseLead(exact(400e3), 'container'), resistor('r-two', ['bf', 's'], 400e3, { zone: 'container' })];
    expect(at(two, 's')?.resistance).toBeCloseTo(200e3, 6);
    expect(at(two, 's')?.dangerous).toBe(true);
  });

  it('counts the leakage of an open contact, and asks for a solid-state one’s', () => {
    const leaky = changed(plain, { 'air-pos': { openResistance: exact(100e3) } });
    expect(at(leaky, 'vp')).toMatchObject({
      dangerous: true,
      resistance: expect.closeTo(100e3, 6),
      path: { elements: ['fuse', 'air-pos', 'plug-pos'] },
    });
    const silent = changed(plain, { 'air-pos': { construction: 'solid-state' } });
    const pointer = circuitOf(silent).elements.find(({ id }) => id === 'air-pos')?.pointer ?? '';
    expect(at(silent, 'vp')).toMatchObject({ dangerous: false, missing: [`${pointer}/openResistance`] });
    const good = changed(plain, { 'air-pos': { construction: 'solid-state', openResistance: exact(1e6) } });
    expect(at(good, 'vp')).toMatchObject({ dangerous: false, missing: [] });
  });

  it('finds a relay closed at rest', () => {
    const welded = changed(series, { 'air-front-neg': { rest: 'closed' } });
    expect(at(welded, 'mid', 'negative')).toMatchObject({
      pole: { container: 'front' },
      dangerous: true,
      touches: ['plug-front-neg', 'plug-rear-pos'],
    });
  });

  it('lists a live node once, not again for a harmless way to the other pole', () => {
    const meter: Wire = { id: 'v', kind: 'meter', nodes: ['bf', 'bn'], zone: 'container', resistance: exact(2e6) };
    const wrong = [...changed(plain, { 'k-pre': { zone: 'vehicle' } }), meter];
    expect(find(wrong).map(({ node, pole }) => [node, pole.polarity])).toEqual([['bf', 'positive']]);
  });

  it('stops at other poles', () => {
    const bled = [...plain, resistor('r-b', ['bf', 'bn'], 10000, { zone: 'container' })];
    expect(
      find(changed(bled, { 'air-neg': { rest: 'closed' } })).every(({ pole }) => pole.polarity === 'negative'),
    ).toBe(true);
  });
});
