import type { Readable } from 'node:stream';
import { httpCapacities } from '../http-capacities.js';
import { invalidRequest } from '../problems/as-problem.js';
import { HttpProblem } from '../problems/http-problem.js';
import { LineSplitter } from '../../verify/batch/line-splitter.js';
import { ListSplitter } from '../../verify/batch/list-splitter.js';
import type { RawItem } from '../../verify/batch/raw-item.js';
import { arriving } from './arriving.js';
import type { ChunkPace } from './chunk-pace.js';
import { inChunks } from './in-chunks.js';
import { openTable, type Table } from './open-table.js';

export interface OpenedItems {
  /** Small groups of items, in order, as they arrive: a group is not held back until it is full. */
  readonly chunks: AsyncIterable<RawItem[]>;
  /** Of a table: what its first line says. */
  readonly table?: Table;
}

export type BatchForm = 'lines' | 'list' | 'table';

/** ms without a byte after which a sender is taken to be gone. */
const IDLE = 30_000;

/**
 * Opens a batch's body: reads as far as it takes to know that it is what its media type says.
 * @throws HttpProblem where it is not
 */
export async function openItems(
  body: Readable,
  form: BatchForm,
  charset: string,
  pace: ChunkPace,
): Promise<OpenedItems> {
  const pieces = arriving(body, IDLE);
  switch (form) {
    case 'lines':
      return { chunks: lines(pieces, pace) };
    case 'list':
      return { chunks: await list(pieces, pace) };
    case 'table': {
      const { table, items } = await openTable(pieces, charset);
      return { table, chunks: inGroups(items, pace) };
    }
  }
}

async function* lines(pieces: AsyncIterable<Uint8Array>, pace: ChunkPace): AsyncGenerator<RawItem[]> {
  const splitter = new LineSplitter(httpCapacities.batchLineBytes);
  for await (const bytes of pieces) yield* inChunks(splitter.push(bytes), pace);
  yield* inChunks(splitter.end(), pace);
}

async function list(pieces: AsyncGenerator<Uint8Array>, pace: ChunkPace): Promise<AsyncIterable<RawItem[]>> {
  const splitter = new ListSplitter(httpCapacities.batchLineBytes);
  let first: RawItem[] = [];
  while (splitter.isBlank) {
    const next = await pieces.next();
    if (next.done === true) throw new HttpProblem('empty-body', 'The body is empty.');
    const items = splitter.push(next.value);
    if (items === undefined) {
      const detail = 'The body must be a list of items: `[{"circuit": …, "ruleset": …}, …]`.';
      throw invalidRequest([{ pointer: '#', code: 'wrong-type', detail }]);
    }
    first = items;
  }
  return (async function* rest() {
    yield* inChunks(first, pace);
    for await (const bytes of pieces) yield* inChunks(splitter.push(bytes) ?? [], pace);
    yield* inChunks(splitter.end(), pace);
  })();
}

async function* inGroups(items: AsyncIterable<RawItem[]>, pace: ChunkPace): AsyncGenerator<RawItem[]> {
  for await (const some of items) yield* inChunks(some, pace);
}
