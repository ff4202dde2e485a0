import { expect, it } from 'vitest';
import { type Asker, Turns } from '../../src/http/pool/turns.js';

const forever = new AbortController().signal;
const NAMES = { call: ['1', '2', '3', '4'], chunk: ['a', 'b', 'c', 'd'] } as const;

/** The order in which those who ask, one after the other, get the one place, each giving it back at once when it has it. */
async function order(askers: readonly Asker[]): Promise<string> {
  const turns = new Turns(1);
  const leave = await turns.take('chunk', forever);
  let names = '';
  const seen = { call: 0, chunk: 0 };
  const all = askers.map(async (asker) => {
    const name = NAMES[asker][seen[asker]++] ?? '?';
    const pass = await turns.take(asker, forever);
    names += name;
    pass();
  });
  leave();
  await Promise.all(all);
  return names;
}

it('lets calls and chunks in by turns, each in the order in which they came', async () => {
  expect(await order(['chunk', 'chunk', 'chunk', 'chunk', 'call', 'call'])).toBe('1a2bcd');
  expect(await order(['call', 'call', 'call', 'call', 'chunk', 'chunk'])).toBe('1a2b34');
  expect(await order(['chunk', 'chunk'])).toBe('ab');
});

it('lets in as many at once as there are places, and no more', async () => {
  const turns = new Turns(2);
  const leaves = [await turns.take('call', forever), await turns.take('chunk', forever)];
  let isIn = false;
  const third = turns.take('call', forever).then((leave) => {
    isIn = true;
    return leave;
  });
  await Promise.resolve();
  expect(isIn).toBe(false);
  leaves[0]?.();
  leaves.push(await third);
  expect(isIn).toBe(true);
});

it('forgets who has gone, before or while waiting, and passes the place on', async () => {
  const turns = new Turns(1);
  const leave = await turns.take('call', forever);
  const controller = new AbortController();
  const gone = turns.take('call', controller.signal);
  const next = turns.take('call', forever);
  controller.abort();
  await expect(gone).rejects.toThrow(/abort/i);
  await expect(turns.take('call', controller.signal)).rejects.toThrow(/abort/i);
  leave();
  (await next)();
  // The place is free again.
  (await turns.take('chunk', forever))();
});
