/** Bytes of one item gathered over several pieces, up to a limit beyond which they are counted no further. */
export class ByteBuffer {
  #pieces: Uint8Array[] = [];
  #length = 0;

  constructor(private readonly limit: number) {}

  get length(): number {
    return this.#length;
  }

  get overflown(): boolean {
    return this.#length > this.limit;
  }

  add(piece: Uint8Array): void {
    this.#length += piece.length;
    if (this.overflown) this.#pieces = [];
    else if (piece.length > 0) this.#pieces.push(piece);
  }

  /** All bytes in memory of their own, so that they can be sent to another thread by themselves; empties the buffer. */
  take(): Uint8Array {
    const whole = new Uint8Array(this.overflown ? 0 : this.#length);
    let at = 0;
    for (const piece of this.#pieces) {
      whole.set(piece, at);
      at += piece.length;
    }
    this.#pieces = [];
    this.#length = 0;
    return whole;
  }
}
