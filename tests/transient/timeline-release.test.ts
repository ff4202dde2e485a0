import { describe, expect, it } from 'vitest';
import { accumulator, circuitOf, contact, disconnect, NamedRun, resistor, step } from './net.js';

const moves = (run: NamedRun) =>
  run.events.map(({ time, step: index, opened, closed }) => ({ time, step: index, opened, closed }));

describe('release', () => {
  const two = (k: Parameters<typeof contact>[3], m: Parameters<typeof contact>[3] = {}) =>
    circuitOf([
      accumulator('a', 'p', 'n', 100),
      contact('k', 'p', 'x', k),
      contact('m', 'p', 'y', m),
      resistor('r', 'x', 'n', 1),
      resistor('s', 'y', 'n', 1),
    ]);
  const closeAndRelease = [step({ at: 0 }, { close: ['k', 'm'] }), step({ at: 1 }, { release: true })];

  it('returns each contact after its own release time; not stated is at once', () => {
    const run = new NamedRun(two({ releaseTime: 0.2 }), closeAndRelease);
    expect(moves(run)).toEqual([
      { time: 0, step: 0, opened: [], closed: ['k', 'm'] },
      { time: 1, step: 1, opened: ['m'], closed: [] },
      { time: 1.2, step: 1, opened: ['k'], closed: [] },
    ]);
    expect([run.current('k', 1.199), run.current('k', 1.2)]).toEqual([100, 0]);
  });

  it('closes a contact that rests closed', () => {
    const run = new NamedRun(two({ rest: 'closed', releaseTime: 0.1 }), [
      step({ at: 0 }, { open: ['k'] }),
      step({ at: 1 }, { release: true }),
    ]);
    expect([run.current('k', 1.05), run.current('k', 1.1)]).toEqual([0, 100]);
  });

  it('leaves an independent contact alone unless it is named; a controller’s falls, and so does one not stated', () => {
    const run = new NamedRun(two({ suppliedBy: 'independent' }, { suppliedBy: 'controller' }), closeAndRelease);
    expect([run.current('k', 2), run.current('m', 2)]).toEqual([100, 0]);
    const named = new NamedRun(two({ suppliedBy: 'independent' }), [
      closeAndRelease[0]!,
      step({ at: 1 }, { release: true, open: ['k'] }),
    ]);
    expect([named.current('k', 2), named.current('m', 2)]).toEqual([0, 0]);
  });

  it('a contact named again before it has returned does not return', () => {
    const run = new NamedRun(two({ releaseTime: 0.5 }), [...closeAndRelease, step({ at: 1.2 }, { close: ['k'] })]);
    expect(run.current('k', 9)).toBe(100);
  });

  it('a second release does not hold up the first', () => {
    const run = new NamedRun(two({ releaseTime: 0.2 }), [...closeAndRelease, step({ at: 1.1 }, { release: true })]);
    expect([run.current('k', 1.199), run.current('k', 1.201)]).toEqual([100, 0]);
  });

  it('a return belongs to the step that released, not to the latest one', () => {
    const run = new NamedRun(two({ releaseTime: 0.2 }), [...closeAndRelease, step({ at: 1.1 }, { close: ['m'] })]);
    expect(moves(run).at(-1)).toEqual({ time: 1 + 0.2, step: 1, opened: ['k'], closed: [] });
  });

  it('leaves connectors and disconnects as they are', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 100),
      disconnect('hvd', 'p', 'x'),
      resistor('r', 'x', 'n', 1),
    ]);
    const run = new NamedRun(circuit, [step({ at: 0 }, { open: ['hvd'] }), step({ at: 1 }, { release: true })]);
    expect(run.current('hvd', 2)).toBe(0);
  });

  it('takes the release times that the caller gives instead', () => {
    const run = new NamedRun(two({ releaseTime: 0.2 }), closeAndRelease, { releaseTime: () => 0.25 });
    expect(moves(run).at(-1)).toEqual({ time: 1.25, step: 1, opened: ['k', 'm'], closed: [] });
  });
});

describe('contacts of one relay', () => {
  it('move together, a closed-at-rest mate the other way', () => {
    const circuit = circuitOf([
      accumulator('a', 'p', 'n', 100),
      contact('make', 'p', 'x', { relay: 'K1' }),
      contact('break', 'p', 'y', { relay: 'K1', rest: 'closed' }),
      contact('other', 'p', 'z', { relay: 'K2' }),
      resistor('r', 'x', 'n', 1),
      resistor('s', 'y', 'n', 1),
      resistor('t', 'z', 'n', 1),
    ]);
    const run = new NamedRun(circuit, [step({ at: 1 }, { close: ['make'] }), step({ at: 2 }, { close: ['break'] })]);
    const carried = (time: number) => ['make', 'break', 'other'].map((id) => run.current(id, time));
    expect([carried(0), carried(1), carried(2)]).toEqual([
      [0, 100, 0],
      [100, 0, 0],
      [0, 100, 0],
    ]);
    expect(moves(run)[0]).toEqual({ time: 1, step: 0, opened: ['break'], closed: ['make'] });
  });
});
