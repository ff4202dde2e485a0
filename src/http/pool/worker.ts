import type { Chunk, ItemResult } from './chunk.js';
import { judgeChunk } from './judge-chunk.js';

/** What each thread of the pool runs for a batch. An empty chunk only shows that the thread works. */
export default function work(chunk: Chunk): ItemResult[] {
  return [...judgeChunk(chunk)];
}

/** What it runs for a single call, asked for by this name. */
export { runCall } from './run-call.js';
