/**
 * Remembers what was made of the last few objects.
 *
 * A WeakMap would do the same without a bound, but V8 keeps all of its values alive until a full garbage collection, which
 * makes every small one copy them about: measured at a fifth of a verification's time.
 */
export class LastFew<K extends object, V> {
  private readonly keys: K[] = [];
  private readonly made: V[] = [];
  private next = 0;

  constructor(private readonly size: number) {}

  get(key: K, make: () => V): V {
    const at = this.keys.indexOf(key);
    if (at >= 0) return this.made[at] as V;
    const value = make();
    this.keys[this.next] = key;
    this.made[this.next] = value;
    this.next = (this.next + 1) % this.size;
    return value;
  }
}
