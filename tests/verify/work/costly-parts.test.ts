import { describe, expect, it } from 'vitest';
import { costlyParts } from '../../../src/verify/work/costly-parts.js';
import { accumulator, capacitor, circuitOf, load, meter, resistor, within } from '../../transient/net.js';

const pack = accumulator('pack', 'p', 'n', 400);

describe('what is costly about a circuit', () => {
  it('is nothing where it is an ordinary one', () => {
    expect(costlyParts(circuitOf([pack, resistor('r', 'p', 'x', 1000), capacitor('c', 'x', 'n', 1e-3)]))).toEqual([]);
  });

  it('names the loads that are followed step by step, a few of them', () => {
    const loads = Array.from({ length: 7 }, (_, k) => load(`pump-${k}`, 'p', 'n', { power: within(10, 0) }));
    const [sentence] = costlyParts(circuitOf([pack, ...loads]));
    expect(sentence).toContain('`pump-0`, `pump-1`, `pump-2`, `pump-3`, `pump-4` and 2 more');
  });

  it('tells a load that starts and stops from one that always draws', () => {
    const current = within(1, 0);
    expect(costlyParts(circuitOf([pack, load('fan', 'p', 'n', { current })]))).toEqual([]);
    const [sentence] = costlyParts(circuitOf([pack, load('fan', 'p', 'n', { current, startsAbove: 300 })]));
    expect(sentence).toContain('if `fan` in truth always draws, state `startsAbove` 0.');
  });

  it('counts capacitors by pairs of nodes, ranges and elements', () => {
    const capacitors = ['x', 'y', 'y'].map((node, k) => capacitor(`c${k}`, node, 'n', 1e-3));
    const meters = Array.from({ length: 50 }, (_, k) =>
      meter(`m${String(k).padStart(2, '0')}`, 'p', 'n', within(1e6, 0.01)),
    );
    expect(
      costlyParts(circuitOf([pack, ...capacitors, ...meters])).map((sentence) => /\d+/.exec(sentence)?.[0]),
    ).toEqual(['2', '50', '54']);
    // One run at nominal values is as long whatever the tolerances: 54 elements are the pack, 3 capacitors and 50 meters.
    const run = costlyParts(circuitOf([pack, ...capacitors, ...meters]), { nominal: true, steps: 30 });
    expect(run.map((sentence) => /\d+/.exec(sentence)?.[0])).toEqual(['2', '54', '30']);
    expect(run.join(' ')).not.toContain('tolerance');
  });
});
