import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readJson } from '../../src/http/json/read-json.js';
import { scanJson } from '../../src/http/json/scan-json.js';
import { serialise } from '../../src/http/json/serialise.js';
import { HttpProblem } from '../../src/http/problems/http-problem.js';

const bytes = (text: string) => Buffer.from(text, 'utf8');
const problemOf = (body: Uint8Array): HttpProblem => {
  try {
    readJson(body);
  } catch (error) {
    if (error instanceof HttpProblem) return error;
    throw error;
  }
  throw new Error('nothing was refused');
};

describe('reading a body', () => {
  it('reads every JSON value as JSON.parse does', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 8 }), fc.constantFrom(undefined, 1, '\t'), (value, indent) => {
        const text = JSON.stringify(value, null, indent);
        fc.pre(!/"(?:__proto__|prototype|constructor)":/.test(text));
        expect(readJson(bytes(text))).toEqual(JSON.parse(text));
      }),
    );
  });

  it('finds a fault exactly where JSON.parse does', () => {
    const soup = fc.string({ unit: fc.constantFrom(...'{}[]":,0123456789.eE+-truefalsn \\u\n'), maxLength: 14 });
    fc.assert(
      fc.property(soup, (text) => {
        let parses = true;
        try {
          JSON.parse(text);
        } catch {
          parses = false;
        }
        const fault = scanJson(text, 32);
        // What parses can still hold equal keys, or a number beyond a double; what does not parse is always refused.
        const strict = fault?.code === 'duplicate-key' || fault?.detail.includes('beyond the range') === true;
        if (parses) expect(fault === undefined || strict).toBe(true);
        else expect(fault).toBeDefined();
      }),
      { numRuns: 5000 },
    );
  });

  it.each([
    ['{"a": 1,\n "b": }', 'malformed-json', 'line 2, column 7'],
    ['{"a": 1', 'malformed-json', 'ends where a comma or a closing brace should follow, at line 1, column 8'],
    ['', 'malformed-json', 'ends where a value should follow, at line 1, column 1'],
    ['{"a": 1}}', 'malformed-json', 'line 1, column 9'],
    ["{'a': 1}", 'malformed-json', 'a key in double quotes'],
    ['[1,]', 'malformed-json', 'a value should stand, at line 1, column 4'],
    ['{"a": "x\ny"}', 'malformed-json', 'must be escaped'],
    ['{"a": 1e999}', 'malformed-json', 'beyond the range of a double'],
    ['[01]', 'malformed-json', 'a comma or a closing bracket'],
    ['NaN', 'malformed-json', 'a value should stand'],
    ['{"a": {"b": 1, "c": 2, "b": 3}}', 'duplicate-key', 'line 1, column 24'],
    ['{"b": 1, "\\u0062": 2}', 'duplicate-key', '"b" twice'],
    ['{"a": {"__proto__": {"x": 1}}}', 'forbidden-key', '__proto__'],
    ['{"constructor": {"prototype": 1}}', 'forbidden-key', 'constructor'],
    ['['.repeat(33) + ']'.repeat(33), 'too-deep', 'more than 32 levels'],
  ])('refuses %j as %s', (text, code, detail) => {
    const problem = problemOf(bytes(text));
    expect(problem.code).toBe(code);
    expect(problem.detail).toContain(detail);
  });

  it('points at a repeated key', () => {
    const problem = problemOf(bytes('{"circuit": {"elements": [{"id": "a", "a/b~c d": 1, "a/b~c d": 2}]}}'));
    expect(problem.options.errors?.[0]?.pointer).toBe('#/circuit/elements/0/a~1b~0c%20d');
  });

  it('refuses bytes that are not UTF-8 and skips a byte order mark', () => {
    expect(problemOf(Buffer.from([0x22, 0xff, 0x22])).code).toBe('malformed-json');
    expect(readJson(Buffer.from([0xef, 0xbb, 0xbf, 0x31]))).toBe(1);
  });

  it('reads a megabyte of one text, of numbers and of brackets without trouble', () => {
    const million = 1_000_000;
    expect(readJson(bytes(`"${'\\n'.repeat(million / 2)}"`))).toHaveLength(million / 2);
    expect(readJson(bytes(`[${'1,'.repeat(million / 2 - 1)}1]`))).toHaveLength(million / 2);
    expect(problemOf(bytes('['.repeat(million))).code).toBe('too-deep');
  });
});

describe('writing an answer', () => {
  it('gives every number 12 significant digits', () => {
    expect(serialise({ a: 1 / 3, b: [2473.684210526316, 1e-20 / 3], c: 123456789012345 })).toBe(
      '{"a":0.333333333333,"b":[2473.68421053,3.33333333333e-21],"c":123456789012000}',
    );
  });

  it('keeps the order of keys, leaves out undefined and keeps null', () => {
    expect(serialise({ b: 1, a: undefined, c: null, d: [true, 'x'] })).toBe('{"b":1,"c":null,"d":[true,"x"]}');
  });

  it('writes negative zero as 0', () => {
    expect(serialise([-0, -1e-400])).toBe('[0,0]');
  });

  it('never drops a key, whatever an element is called', () => {
    const odd = JSON.parse('{"__proto__": 1, "constructor": 2, "toString": 3}') as object;
    expect(serialise(odd)).toBe('{"__proto__":1,"constructor":2,"toString":3}');
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])('throws for %d', (value) => {
    expect(() => serialise({ deep: [{ value }] })).toThrow(RangeError);
  });

  it('is the identity on what it has written', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const once = serialise(value);
        expect(serialise(JSON.parse(once))).toBe(once);
      }),
    );
  });
});
