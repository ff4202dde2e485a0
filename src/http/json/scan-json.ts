/** What a scan found wrong with a JSON text. Offsets count UTF-16 units from 0. */
export interface JsonFault {
  readonly code: 'malformed-json' | 'duplicate-key' | 'forbidden-key' | 'too-deep';
  readonly detail: string;
  readonly offset: number;
  /** Keys and indices on the way to the place. */
  readonly path: readonly (string | number)[];
}

/** Keys by which a careless merge changes the behaviour of every object. */
const FORBIDDEN = new Set(['__proto__', 'constructor', 'prototype']);

// Sticky, so that one expression object reads tokens from any offset. RFC 8259 sections 2, 6 and 7.
const SPACE = /[ \t\n\r]*/y;
const STRING = /"[^"\\\u0000-\u001f]*(?:\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})[^"\\\u0000-\u001f]*)*"/y;
const NUMBER = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y;
const WORD = /true|false|null/y;

class Stop extends Error {
  constructor(readonly fault: JsonFault) {
    super(fault.detail);
  }
}

/**
 * Reads a JSON text by the grammar of RFC 8259 without building a value, and answers the first fault: a place where the
 * grammar breaks, a key that stands twice in one object, a forbidden key, nesting beyond `maxDepth`, or a number beyond
 * the range of a double. Undefined where there is none.
 */
export function scanJson(text: string, maxDepth: number): JsonFault | undefined {
  const path: (string | number)[] = [];
  let at = 0;

  const stop = (code: JsonFault['code'], detail: string, offset = at): never => {
    throw new Stop({ code, detail, offset, path: [...path] });
  };
  const space = (): void => {
    SPACE.lastIndex = at;
    SPACE.test(text);
    at = SPACE.lastIndex;
  };
  const token = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = at;
    const found = pattern.exec(text)?.[0];
    if (found !== undefined) at += found.length;
    return found;
  };
  const unexpected = (wanted: string): never => {
    const seen = text[at];
    return stop(
      'malformed-json',
      seen === undefined
        ? `ends where ${wanted} should follow`
        : `has ${JSON.stringify(seen)} where ${wanted} should stand`,
    );
  };

  const object = (depth: number): void => {
    const keys = new Set<string>();
    at += 1;
    space();
    if (text[at] === '}') {
      at += 1;
      return;
    }
    for (;;) {
      const start = at;
      const raw = text[at] === '"' ? token(STRING) : undefined;
      if (raw === undefined) return unexpected('a key in double quotes');
      const key = raw.includes('\\') ? (JSON.parse(raw) as string) : raw.slice(1, -1);
      path.push(key);
      if (FORBIDDEN.has(key))
        stop('forbidden-key', `has the key ${JSON.stringify(key)}, which is never accepted`, start);
      if (keys.has(key)) stop('duplicate-key', `has the key ${JSON.stringify(key)} twice in one object`, start);
      keys.add(key);
      space();
      if (text[at] !== ':') unexpected('a colon');
      at += 1;
      value(depth);
      path.pop();
      if (text[at] === '}') {
        at += 1;
        return;
      }
      if (text[at] !== ',') unexpected('a comma or a closing brace');
      at += 1;
      space();
    }
  };
  const list = (depth: number): void => {
    at += 1;
    space();
    if (text[at] === ']') {
      at += 1;
      return;
    }
    for (let index = 0; ; index += 1) {
      path.push(index);
      value(depth);
      path.pop();
      if (text[at] === ']') {
        at += 1;
        return;
      }
      if (text[at] !== ',') unexpected('a comma or a closing bracket');
      at += 1;
    }
  };
  const scalar = (): void => {
    const start = at;
    const first = text[at] ?? '';
    if (first === '"') {
      if (token(STRING) === undefined)
        stop('malformed-json', 'has a text that is not closed, or a character in it that must be escaped');
      return;
    }
    if (token(WORD) !== undefined) return;
    const number = token(NUMBER);
    if (number === undefined) return unexpected('a value');
    if (!Number.isFinite(Number(number))) stop('malformed-json', 'has a number beyond the range of a double', start);
  };
  const value = (depth: number): void => {
    space();
    const first = text[at];
    if (first === '{' || first === '[') {
      if (depth >= maxDepth) stop('too-deep', `is nested more than ${maxDepth} levels deep`);
      if (first === '{') object(depth + 1);
      else list(depth + 1);
    } else scalar();
    space();
  };

  try {
    value(0);
    if (at < text.length) unexpected('nothing');
    return undefined;
  } catch (error) {
    if (error instanceof Stop) return error.fault;
    throw error;
  }
}
