import { describe, expect, it } from 'vitest';
import { ChunkPace } from '../../src/http/bulk/chunk-pace.js';
import { inChunks } from '../../src/http/bulk/in-chunks.js';
import type { RawItem } from '../../src/verify/batch/raw-item.js';

const item = (index: number, size = 10): RawItem => ({
  index,
  content: { form: 'json', bytes: new Uint8Array(size) },
});
const many = (count: number, size?: number) => Array.from({ length: count }, (_, index) => item(index, size));

describe('the pace of chunks', () => {
  it('begins with one item, so that the first is answered at once', () => {
    expect([...inChunks(many(3), new ChunkPace())].map(({ length }) => length)).toEqual([1, 1, 1]);
  });

  it('quickens while items take next to nothing, up to sixteen', () => {
    const pace = new ChunkPace();
    const sizes: number[] = [];
    for (const chunk of inChunks(many(200), pace)) {
      sizes.push(chunk.length);
      pace.took(chunk.length, chunk.length * 0.2);
    }
    expect(sizes.slice(0, 7)).toEqual([1, 2, 4, 8, 16, 16, 16]);
    expect(Math.max(...sizes)).toBe(16);
  });

  it('goes back to one where each takes tens of milliseconds', () => {
    const pace = new ChunkPace();
    for (const chunk of inChunks(many(31), pace)) pace.took(chunk.length, 1);
    expect(pace.items).toBe(16);
    const sizes: number[] = [];
    for (const chunk of inChunks(many(60), pace)) {
      sizes.push(chunk.length);
      pace.took(chunk.length, chunk.length * 45);
    }
    expect(sizes.slice(0, 7)).toEqual([16, 8, 4, 2, 1, 1, 1]);
  });

  it('learns nothing from a chunk that is not full', () => {
    const pace = new ChunkPace();
    for (const length of [1, 2, 4]) pace.took(length, 1);
    expect(pace.items).toBe(8);
    pace.took(1, 1);
    expect(pace.items).toBe(8);
  });

  it('does not let large items gather', () => {
    const pace = new ChunkPace();
    for (const length of [1, 2, 4, 8]) pace.took(length, 1);
    expect([...inChunks(many(4, 40_000), pace)].map(({ length }) => length)).toEqual([2, 2]);
  });
});
