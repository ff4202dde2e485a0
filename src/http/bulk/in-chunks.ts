import type { RawItem } from '../../verify/batch/raw-item.js';

/** A car takes some tens of milliseconds, sending a chunk a tenth of one: even a small event spreads over the cores. */
const ITEMS = 4;
/** Bytes, or characters, after which a chunk is closed: what is under way is bounded by it and by one longest line. */
const SIZE = 65_536;

/** Items in small groups, in their order. */
export function* inChunks(items: Iterable<RawItem>): Generator<RawItem[]> {
  let chunk: RawItem[] = [];
  let size = 0;
  for (const item of items) {
    chunk.push(item);
    size += sizeOf(item);
    if (chunk.length < ITEMS && size < SIZE) continue;
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
