/**
 * Works on several pieces at once and yields the results in the order of the pieces. A piece is taken as soon as it
 * arrives and there is room, a result is given as soon as it is the next: neither waits for the other. Results that wait
 * for an earlier one do not hold up the work on later pieces, up to `AHEAD` widths of them. Nobody asking for results
 * means that no more pieces are taken.
 * @param width pieces worked on at once
 * @throws what the pieces end with, after the results of those that had arrived; what the work throws, when it is its turn
 */
export async function* inOrder<P, R>(
  pieces: AsyncIterable<P>,
  work: (piece: P) => Promise<R>,
  width: number,
): AsyncGenerator<R> {
  const source = pieces[Symbol.asyncIterator]();
  const taken: Promise<Event<P, R>>[] = [];
  const running = new Set<Promise<Event<P, R>>>();
  let arriving: Promise<Event<P, R>> | undefined;
  let end: { readonly failure?: unknown } | undefined;
  try {
    while (end === undefined || taken.length > 0) {
      const [oldest] = taken;
      const awaited = oldest === undefined ? [] : [oldest];
      if (end === undefined && taken.length < AHEAD * width) {
        if (running.size < width) awaited.push((arriving ??= arrivalOf<P, R>(source.next())));
        else awaited.push(Promise.race(running).then(makesRoom, makesRoom));
      }
      const event = await Promise.race(awaited);
      switch (event.kind) {
        case 'result':
          void taken.shift();
          yield event.result;
          break;
        case 'piece': {
          arriving = undefined;
          const result = begun<P, R>(work(event.piece));
          taken.push(result);
          running.add(result);
          const leave = (): void => void running.delete(result);
          // Also after a failure, which is told when its turn comes.
          result.then(leave, leave);
          break;
        }
        case 'end':
          end = event;
          break;
        case 'room':
          break;
      }
    }
  } finally {
    // Not waited for: a piece may be awaited that never comes.
    source.return?.().catch(() => undefined);
  }
  if ('failure' in end) throw end.failure;
}

/** Pieces taken and not yet given, in widths: one that is ended only after its whole time does not hold up an ordinary event. */
const AHEAD = 16;

type Event<P, R> =
  | { readonly kind: 'piece'; readonly piece: P }
  | { readonly kind: 'end'; readonly failure?: unknown }
  | { readonly kind: 'result'; readonly result: R }
  /** One more piece can be worked on. */
  | { readonly kind: 'room' };

function arrivalOf<P, R>(next: Promise<IteratorResult<P>>): Promise<Event<P, R>> {
  return next.then(
    ({ done, value }) => (done === true ? { kind: 'end' } : { kind: 'piece', piece: value }),
    (failure: unknown) => ({ kind: 'end', failure }),
  );
}

const makesRoom = () => ({ kind: 'room' }) as const;

function begun<P, R>(work: Promise<R>): Promise<Event<P, R>> {
  return work.then((result) => ({ kind: 'result', result }));
}
