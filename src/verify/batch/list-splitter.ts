import { ByteBuffer } from './byte-buffer.js';
import type { RawItem } from './raw-item.js';

type State = 'before' | 'first' | 'item' | 'after' | 'broken';

const SPACES = new Set([0x20, 0x09, 0x0a, 0x0d]);
/** A byte order mark's bytes may stand before the list. */
const BOM = new Set([0xef, 0xbb, 0xbf]);
const code = (character: string): number => character.charCodeAt(0);
const [OPEN_LIST, CLOSE_LIST, OPEN_OBJECT, CLOSE_OBJECT] = [code('['), code(']'), code('{'), code('}')];
const [QUOTE, BACKSLASH, COMMA] = [code('"'), code('\\'), code(',')];

/**
 * Takes a JSON list apart, piece by piece, by its outermost commas alone: every item is checked by whoever reads it. All
 * bytes that matter are ASCII, so no character of UTF-8 is mistaken for one (RFC 3629 section 3).
 */
export class ListSplitter {
  readonly #buffer: ByteBuffer;
  #state: State = 'before';
  #depth = 0;
  #inText = false;
  #escaped = false;
  #index = 0;

  constructor(limit: number) {
    this.#buffer = new ByteBuffer(limit);
  }

  /** True while no byte has been seen that is not white space. */
  get isBlank(): boolean {
    return this.#state === 'before';
  }

  /**
   * The items that are complete with these further bytes.
   * @returns undefined where the bytes do not begin a list
   */
  push(bytes: Uint8Array): RawItem[] | undefined {
    const items: RawItem[] = [];
    let from = 0;
    for (let at = 0; at < bytes.length && this.#state !== 'broken'; at += 1) {
      const byte = bytes[at] ?? 0;
      if (this.#state === 'before') {
        if (SPACES.has(byte) || BOM.has(byte)) continue;
        if (byte !== OPEN_LIST) return undefined;
        this.#state = 'first';
        from = at + 1;
        continue;
      }
      if (this.#inText) {
        this.#readText(byte);
        continue;
      }
      if (this.#state === 'after') {
        if (!SPACES.has(byte)) items.push(this.#broken());
        continue;
      }
      const ends = this.#depth === 0 && (byte === COMMA || byte === CLOSE_LIST);
      if (!ends) {
        if (!SPACES.has(byte)) this.#state = 'item';
        this.#nest(byte);
        continue;
      }
      this.#buffer.add(bytes.subarray(from, at));
      // `[]` has no item; a comma always has one before it and after it, be it an empty one that its reader refuses.
      if (byte === COMMA || this.#state === 'item') items.push(this.#complete());
      else this.#buffer.take();
      this.#state = byte === COMMA ? 'item' : 'after';
      from = at + 1;
    }
    if (this.#state === 'first' || this.#state === 'item') this.#buffer.add(bytes.subarray(from));
    return items;
  }

  /** What is wrong where the list has not been closed. */
  end(): RawItem[] {
    return this.#state === 'first' || this.#state === 'item' ? [this.#broken()] : [];
  }

  #readText(byte: number): void {
    if (this.#escaped) this.#escaped = false;
    else if (byte === BACKSLASH) this.#escaped = true;
    else if (byte === QUOTE) this.#inText = false;
  }

  #nest(byte: number): void {
    if (byte === QUOTE) this.#inText = true;
    else if (byte === OPEN_LIST || byte === OPEN_OBJECT) this.#depth += 1;
    else if (byte === CLOSE_LIST || byte === CLOSE_OBJECT) this.#depth = Math.max(0, this.#depth - 1);
  }

  #complete(): RawItem {
    const { overflown } = this.#buffer;
    const bytes = this.#buffer.take();
    const index = this.#index;
    this.#index += 1;
    return { index, content: overflown ? { form: 'refused', why: 'too-long' } : { form: 'json', bytes } };
  }

  /** One item stands for all that cannot be told apart any more. */
  #broken(): RawItem {
    this.#buffer.take();
    const index = this.#index;
    this.#index += 1;
    this.#state = 'broken';
    return { index, content: { form: 'refused', why: 'unclosed-list' } };
  }
}
