/** A seeded stream of numbers in [0, 1): mulberry32, public domain, by T. Ettinger. */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A number spread evenly over decades: 10^low … 10^high. */
export function decades(next: () => number, low: number, high: number): number {
  return 10 ** (low + (high - low) * next());
}

export function pick<T>(next: () => number, items: readonly T[]): T {
  return items[Math.floor(next() * items.length)]!;
}
