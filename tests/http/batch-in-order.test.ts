import { setTimeout as wait } from 'node:timers/promises';
import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { arriving } from '../../src/http/bulk/arriving.js';
import { inOrder } from '../../src/http/bulk/in-order.js';
import { random } from '../transient/random.js';

async function* source<T>(items: Iterable<T>, pause = 0): AsyncGenerator<T> {
  for (const item of items) {
    if (pause > 0) await wait(pause);
    yield item;
  }
}
const numbers = (count: number) => Array.from({ length: count }, (_, index) => index);
async function all<T>(from: AsyncIterable<T>): Promise<T[]> {
  const found: T[] = [];
  for await (const one of from) found.push(one);
  return found;
}

/** Something that ends when it is told to. */
function ended() {
  let end = (): void => undefined;
  const promise = new Promise<void>((resolve) => {
    end = resolve;
  });
  return { promise, end: () => end() };
}

describe('work in order', () => {
  it('gives results in the order of the pieces, whatever is done first', async () => {
    const next = random(7);
    const work = async (one: number) => {
      await wait(next() * 8);
      return one * 2;
    };
    expect(await all(inOrder(source(numbers(100)), work, 7))).toEqual(numbers(100).map((one) => one * 2));
  });

  it('has no more under way than it is wide', async () => {
    let underWay = 0;
    let most = 0;
    const work = async () => {
      underWay += 1;
      most = Math.max(most, underWay);
      await wait(2);
      underWay -= 1;
    };
    await all(inOrder(source(numbers(50)), work, 4));
    expect(most).toBe(4);
  });

  it('goes on with later pieces while an early one takes its whole time, but not without end', async () => {
    let [done, most] = [0, 0];
    let underWay = 0;
    const first = ended();
    const work = async (one: number) => {
      underWay += 1;
      most = Math.max(most, underWay);
      await (one === 0 ? first.promise : wait(1));
      underWay -= 1;
      done += 1;
      return one;
    };
    const results = inOrder(source(numbers(500)), work, 2);
    const next = results.next();
    for (let before = -1; before !== done; ) {
      before = done;
      await wait(50);
    }
    // Two at once, and sixteen times as many taken: all but the first of them are done.
    expect([done, most]).toEqual([31, 2]);
    first.end();
    expect((await next).value).toBe(0);
    expect(await all(results)).toEqual(numbers(500).slice(1));
  });

  it('takes no more pieces while nobody asks for results', async () => {
    let taken = 0;
    async function* counted() {
      for (;;) {
        taken += 1;
        yield taken;
      }
    }
    const results = inOrder(counted(), async (one) => one, 3);
    await results.next();
    await wait(20);
    expect(taken).toBeLessThanOrEqual(4);
    await results.return(undefined);
  });

  it('gives what was done before the work that fails, also where it failed first', async () => {
    const work = async (one: number) => {
      if (one === 1) throw new Error('second');
      await wait(20);
      return one;
    };
    const results = inOrder(source(numbers(9)), work, 2);
    expect((await results.next()).value).toBe(0);
    await expect(results.next()).rejects.toThrow('second');
  });

  it('gives a result as soon as it is there, though the next piece is late', async () => {
    const results = inOrder(source([1, 2], 50), async (one) => one, 8);
    const start = performance.now();
    await results.next();
    expect(performance.now() - start).toBeLessThan(95);
    await results.return(undefined);
  });

  it('answers what had arrived before it says that the source failed', async () => {
    async function* broken() {
      yield 1;
      yield 2;
      throw new Error('broke off');
    }
    const found: number[] = [];
    const run = async () => {
      for await (const one of inOrder(broken(), async (piece) => (await wait(10), piece), 8)) found.push(one);
    };
    await expect(run()).rejects.toThrow('broke off');
    expect(found).toEqual([1, 2]);
  });

  it('ends with the work that fails', async () => {
    const work = async (one: number) => {
      if (one === 3) throw new Error('third');
      return one;
    };
    await expect(all(inOrder(source(numbers(9)), work, 2))).rejects.toThrow('third');
  });
});

describe('a body', () => {
  it('may be as slow as its reader: only silence while more is wanted ends it', async () => {
    const body = new PassThrough();
    const pieces = arriving(body, 40);
    body.write('a');
    expect((await pieces.next()).value?.toString()).toBe('a');
    await wait(80);
    body.write('b');
    expect((await pieces.next()).value?.toString()).toBe('b');
    await expect(pieces.next()).rejects.toMatchObject({ code: 'request-timeout', status: 408 });
  });

  it('that ends has ended', async () => {
    const body = new PassThrough();
    body.end('a');
    expect(await all(arriving(body, 40))).toHaveLength(1);
  });
});
