import { alternateRuns, shown, times } from './measure.js';
import { postBatch } from './post-batch.js';
import { serve } from './serve.js';
import { exampleRequest } from './varied.js';

const FEW = 1000;
const MANY = 100_000;
/** So many that the engine's own heaps have grown to their working size, which has nothing to do with a batch's length. */
const WARM = 20_000;
/** One pack in so many light lines. */
const PACK_EVERY = 50;

/**
 * The service's highest resident memory with all its threads, while few and while many lines pass: their number must not
 * count. One line in fifty is a pack alone and the others are faulty, so that many pass in seconds.
 */
export async function batchMemory(): Promise<void> {
  const { ruleset } = exampleRequest('discharge-fused');
  const service = await serve(2);
  const pass = async (count: number): Promise<number> => {
    await service.use();
    const errors = count - count / PACK_EVERY;
    await postBatch(service.address, lightLines(count, ruleset), { detail: 'verdict', errors });
    return (await service.use()).peak;
  };
  try {
    await pass(FEW);
    const fresh = await pass(FEW);
    await pass(WARM);
    const { first, second, ratio } = await alternateRuns(
      () => pass(FEW),
      () => pass(MANY),
    );
    console.log(
      `  peak resident memory of ${String(FEW)} lines ${shown(first)} MiB, of ${String(MANY)} lines ${shown(second)} MiB: ${times(ratio)}; in a process just started, before its heaps had their size, ${fresh.toFixed(0)} MiB`,
    );
  } finally {
    await service.stop();
  }
}

function* lightLines(count: number, ruleset: string): Generator<string> {
  for (let line = 0; line < count; line += 1) {
    const pack = { id: 'pack', kind: 'accumulator', nodes: ['p', 'n'], zone: 'container', voltage: 400 + line * 1e-3 };
    const elements = line % PACK_EVERY === 0 ? [pack] : [];
    yield `${JSON.stringify({ circuit: { elements }, ruleset })}\n`;
  }
}
