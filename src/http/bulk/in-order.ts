/**
 * Works on several pieces at once and yields the results in the order of the pieces. A piece is taken as soon as it
 * arrives and there is room, a result is given as soon as it is the next: neither waits for the other. Nobody asking for
 * results means that no more pieces are taken.
 * @param width pieces under way at once
 * @throws what the pieces end with, after the results of those that had arrived; what the work throws, at once
 */
export async function* inOrder<P, R>(
  pieces: AsyncIterable<P>,
  work: (piece: P) => Promise<R>,
  width: number,
): AsyncGenerator<R> {
  const source = pieces[Symbol.asyncIterator]();
  const underWay: Promise<Event<P, R>>[] = [];
  let arriving: Promise<Event<P, R>> | undefined;
  let end: { readonly failure?: unknown } | undefined;
  try {
    while (end === undefined || underWay.length > 0) {
      const room = end === undefined && underWay.length < width;
      if (room) arriving ??= arrivalOf<P, R>(source.next());
      const [oldest] = underWay;
      const event = await Promise.race([oldest, room ? arriving : undefined].filter((one) => one !== undefined));
      if (event.kind === 'result') {
        void underWay.shift();
        yield event.result;
        continue;
      }
      arriving = undefined;
      if (event.kind === 'piece') underWay.push(begun(work(event.piece)));
      else end = event;
    }
  } finally {
    // Not waited for: a piece may be awaited that never comes.
    source.return?.().catch(() => undefined);
  }
  if ('failure' in end) throw end.failure;
}

type Event<P, R> =
  | { readonly kind: 'piece'; readonly piece: P }
  | { readonly kind: 'end'; readonly failure?: unknown }
  | { readonly kind: 'result'; readonly result: R };

function arrivalOf<P, R>(next: Promise<IteratorResult<P>>): Promise<Event<P, R>> {
  return next.then(
    ({ done, value }) => (done === true ? { kind: 'end' } : { kind: 'piece', piece: value }),
    (failure: unknown) => ({ kind: 'end', failure }),
  );
}

function begun<P, R>(work: Promise<R>): Promise<Event<P, R>> {
  const event = work.then((result): Event<P, R> => ({ kind: 'result', result }));
  // A failure is told when its turn comes; until then nobody listens, which is no mistake.
  event.catch(() => undefined);
  return event;
}
