import { describe, expect, it } from 'vitest';
import { defaultSequence } from '../../../src/facts/topology/default-sequence.js';
import { judgedSequence } from '../../../src/facts/topology/judged-sequence.js';
import { topology } from '../../../src/facts/topology/topology.js';
import { changed, circuitOf, conditions, negative, parallel, plain, relay, series, type Wire } from './fixtures.js';

const sequence = (elements: readonly Wire[], rest?: Record<string, unknown>, release = false) => {
  const circuit = circuitOf(elements, rest);
  return defaultSequence(circuit, topology(circuit, conditions), conditions, { release });
};
const timing = (precharge: Record<string, unknown>) => sequence(plain, { control: { precharge } })[1];

describe('defaultSequence', () => {
  it('energises everything but the last relay, closes that at the threshold, then opens the pre-charge relay', () => {
    expect(sequence(plain, {}, true)).toEqual([
      { at: 0, close: ['air-neg', 'k-pre'], open: ['k-dis'], release: false },
      { when: { linkRatio: 0.95, falling: false }, close: ['air-pos'], open: [], release: false },
      { after: 0.1, close: [], open: ['k-pre'], release: false },
      { after: 1, close: [], open: [], release: true },
    ]);
  });

  it.each([
    ['the negative pole', negative, ['air-pos', 'k-pre'], ['air-neg']],
    ['containers in series', series, ['air-front-neg', 'air-rear-neg', 'air-rear-pos', 'k-pre'], ['air-front-pos']],
    [
      'containers in parallel',
      parallel,
      ['air-left-neg', 'air-right-neg', 'k-pre-left', 'k-pre-right'],
      ['air-left-pos', 'air-right-pos'],
    ],
  ])('closes in the same order with %s', (_, elements, first, last) => {
    const [one, two] = sequence(elements);
    expect([one?.close, two?.close]).toEqual([first, last]);
  });

  it('takes the setting before the ruleset’s level, and a timer’s delay before both', () => {
    expect(timing({ threshold: 0.97 })).toMatchObject({ when: { linkRatio: 0.97, falling: false } });
    expect(timing({ method: 'voltage-comparison', delay: 2 })).toMatchObject({ when: { linkRatio: 0.95 } });
    expect(timing({ method: 'timer', threshold: 0.97, delay: 2 })).toMatchObject({ after: 2 });
    expect(timing({ delay: 2 })).toMatchObject({ after: 2 });
    expect(timing({ method: 'timer' })).toMatchObject({ when: { linkRatio: 0.95 } });
  });

  it('energises other contacts by their supply, and closes those that are open at rest', () => {
    const more = [
      relay('k-a', ['lp', 'x'], { role: 'other', zone: 'vehicle' }),
      relay('k-b', ['lp', 'x'], { role: 'other', zone: 'vehicle', suppliedBy: undefined }),
      relay('k-c', ['lp', 'x'], { role: 'other', zone: 'vehicle', suppliedBy: 'independent' }),
      relay('k-d', ['lp', 'x'], { role: 'other', zone: 'vehicle', suppliedBy: 'controller', rest: 'closed' }),
    ];
    const [first] = sequence(changed(plain, {}, more).map((wire) => JSON.parse(JSON.stringify(wire)) as Wire));
    expect(first).toMatchObject({ close: ['air-neg', 'k-a', 'k-b', 'k-pre'], open: ['k-d', 'k-dis'] });
  });

  it('moves the contacts of one relay together', () => {
    const joined = changed(plain, {
      'k-pre': { relay: 'change-over' },
      'k-dis': { relay: 'change-over', suppliedBy: 'independent' },
    });
    const [first, , third] = sequence(joined);
    expect(first).toMatchObject({ close: ['air-neg', 'k-pre'], open: ['k-dis'] });
    expect(third).toMatchObject({ close: ['k-dis'], open: ['k-pre'] });
  });

  it('ends with its first step where no relay is left to close', () => {
    expect(sequence(changed(plain, { 'k-pre': undefined, 'r-pre': undefined }))).toEqual([
      { at: 0, close: ['air-neg', 'air-pos'], open: ['k-dis'], release: false },
    ]);
  });
});

describe('judgedSequence', () => {
  it('takes the team’s own order literally, else the default', () => {
    const own = circuitOf(plain, { control: { sequence: [{ at: 0, close: ['k-pre'] }] } });
    expect(judgedSequence(own, topology(own, conditions), conditions)).toEqual({
      source: 'stated',
      steps: [{ at: 0, close: ['k-pre'], open: [], release: false }],
    });
    const none = circuitOf(plain);
    const judged = judgedSequence(none, topology(none, conditions), conditions);
    expect(judged.source).toBe('default');
    expect(judged.steps.some(({ release }) => release)).toBe(false);
  });
});
