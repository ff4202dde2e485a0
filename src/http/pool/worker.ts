import type { Chunk, ItemResult } from './chunk.js';
import { judgeChunk } from './judge-chunk.js';

/** What each thread of the pool runs. An empty chunk only shows that the thread works. */
export default function work(chunk: Chunk): ItemResult[] {
  return [...judgeChunk(chunk)];
}
