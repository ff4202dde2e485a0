import { ByteBuffer } from './byte-buffer.js';
import type { RawItem } from './raw-item.js';

const LINE_FEED = 0x0a;
/** Space, tab, carriage return, and the three bytes of a byte order mark. */
const BLANK = new Set([0x20, 0x09, 0x0d, 0xef, 0xbb, 0xbf]);

/**
 * Takes newline-delimited JSON apart, piece by piece. Blank lines are skipped and count only as lines. A line of more
 * bytes than `limit` is refused in its place, and no more of it is kept.
 */
export class LineSplitter {
  readonly #buffer: ByteBuffer;
  #line = 1;
  #index = 0;

  constructor(limit: number) {
    this.#buffer = new ByteBuffer(limit);
  }

  push(bytes: Uint8Array): RawItem[] {
    const items: RawItem[] = [];
    let from = 0;
    for (;;) {
      const end = bytes.indexOf(LINE_FEED, from);
      this.#buffer.add(bytes.subarray(from, end < 0 ? bytes.length : end));
      if (end < 0) return items;
      items.push(...this.#complete());
      from = end + 1;
    }
  }

  end(): RawItem[] {
    return this.#complete();
  }

  #complete(): RawItem[] {
    const line = this.#line;
    this.#line += 1;
    const { overflown } = this.#buffer;
    const bytes = this.#buffer.take();
    if (!overflown && bytes.every((byte) => BLANK.has(byte))) return [];
    const index = this.#index;
    this.#index += 1;
    return [{ index, line, content: overflown ? { form: 'refused', why: 'too-long' } : { form: 'json', bytes } }];
  }
}
