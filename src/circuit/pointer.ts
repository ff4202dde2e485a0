/**
 * The pointer one level below: a JSON pointer (RFC 6901) as a URI fragment, so `~` and `/` are escaped first and what a
 * fragment may not hold is percent-encoded after (section 6).
 */
export function childPointer(pointer: string, ...keys: ReadonlyArray<string | number>): string {
  return keys.reduce<string>(
    (path, key) => `${path}/${typeof key === 'number' ? String(key) : escapeKey(key)}`,
    pointer,
  );
}

/** Nearly every key; nothing to escape. */
const PLAIN_KEY = /^[\w-]*$/;

function escapeKey(key: string): string {
  if (PLAIN_KEY.test(key)) return key;
  // A lone surrogate has no UTF-8 form and would make encodeURI throw.
  const wellFormed = key.replace(/\p{Surrogate}/gu, '\uFFFD');
  return encodeURI(wellFormed.replaceAll('~', '~0').replaceAll('/', '~1')).replaceAll('#', '%23');
}

/** The keys of a pointer, unescaped; `[]` for the root `#`. */
export function pointerKeys(pointer: string): string[] {
  return pointer
    .split('/')
    .slice(1)
    .map((key) => decodeURIComponent(key).replaceAll('~1', '/').replaceAll('~0', '~'));
}

/** Order of pointers: level by level, list positions by number, a place before what lies in it. */
export function comparePointers(a: string, b: string): number {
  const left = a.split('/');
  const right = b.split('/');
  for (const [level, key] of left.entries()) {
    const other = right[level];
    if (other === undefined) return 1;
    const order = compareKeys(key, other);
    if (order !== 0) return order;
  }
  return left.length - right.length;
}

const LIST_POSITION = /^\d+$/;

function compareKeys(a: string, b: string): number {
  if (a === b) return 0;
  if (LIST_POSITION.test(a) && LIST_POSITION.test(b)) return Number(a) - Number(b) || (a < b ? -1 : 1);
  return a < b ? -1 : 1;
}
