/**
 * A worker for tests of the pool: each item's answer says what it held, at once. An item that holds `loop` never comes
 * to an end, one that holds `die` takes its thread with it, one that holds `long` has an answer of 10 kB. A call is told by
 * the title of its circuit in the same way; `hoard` fills its thread's heap.
 */
export default function work({ items, progress }) {
  const begun = progress === undefined ? undefined : new Int32Array(progress);
  return items.map(({ index, line, content }) => {
    if (begun !== undefined) Atomics.add(begun, 0, 1);
    const text = new TextDecoder().decode(content.bytes);
    while (text.includes('loop'));
    if (text.includes('die')) process.exit(1);
    const answer = {
      index,
      id: null,
      line,
      status: 200,
      held: text.length,
      more: text.includes('long') ? 'x'.repeat(10_000) : '',
    };
    return { index, id: null, outcome: 'undetermined', text: JSON.stringify(answer) };
  });
}

export function runCall({ body, progress }) {
  Atomics.add(new Int32Array(progress), 0, 1);
  while (body.circuit.title === 'loop');
  if (body.circuit.title === 'die') process.exit(1);
  for (const kept = []; body.circuit.title === 'hoard'; ) kept.push(new Array(1e5).fill(kept.length));
  return { text: 'by a thread' };
}
