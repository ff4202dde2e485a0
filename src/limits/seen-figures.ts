import type { Facts } from '../facts/facts.js';

type ByValue = Map<number, unknown>;

const seen = new WeakMap<Facts, Map<unknown, Map<string, ByValue>>>();

/**
 * What has been computed of one circuit so far, by value of a part: the same map for the same reader and key.
 * @param read what reads the values, or `varied` for the circuits themselves
 */
export function seenFigures(facts: Facts, read: unknown, key: string): ByValue {
  const byRead = entry(seen, facts, () => new Map<unknown, Map<string, ByValue>>());
  const byKey = entry(byRead, read, () => new Map<string, ByValue>());
  return entry(byKey, key, () => new Map<number, unknown>());
}

/** Forgets them. What has been computed decides which values are tried, and so the last bits of a bound: a list of limits starts anew. */
export function forgetFigures(facts: Facts): void {
  seen.delete(facts);
}

interface Store<K, V> {
  get: (key: K) => V | undefined;
  set: (key: K, value: V) => unknown;
}

function entry<K, V>(store: Store<K, V>, key: K, make: () => V): V {
  const known = store.get(key) ?? make();
  store.set(key, known);
  return known;
}
