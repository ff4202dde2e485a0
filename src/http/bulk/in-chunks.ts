import type { RawItem } from '../../verify/batch/raw-item.js';
import type { ChunkPace } from './chunk-pace.js';

/** Bytes, or characters, after which a chunk is closed: what is under way is bounded by it and by one longest line. */
const SIZE = 65_536;

/** Items in small groups, in their order; each as large as `pace` has it by then. */
export function* inChunks(items: Iterable<RawItem>, pace: Pick<ChunkPace, 'items'>): Generator<RawItem[]> {
  let chunk: RawItem[] = [];
  let size = 0;
  for (const item of items) {
    chunk.push(item);
    size += sizeOf(item);
    if (chunk.length < pace.items && size < SIZE) continue;
    yield chunk;
    chunk = [];
    size = 0;
  }
  if (chunk.length > 0) yield chunk;
}

function sizeOf({ content }: RawItem): number {
  if (content.form === 'json') return content.bytes.length;
  return content.form === 'cells' ? content.cells.reduce((sum, cell) => sum + cell.length, 0) : 0;
}
