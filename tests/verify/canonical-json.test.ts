import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { canonicalJson } from '../../src/verify/canonical-json.js';
import { digest } from '../../src/verify/digest.js';

describe('the canonical form', () => {
  // RFC 8785 section 3.2.2 (the sample object) and its canonical form, section 3.2.3; from memory.
  it('is that of RFC 8785 for its sample', () => {
    const sample = JSON.parse(
      '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
    ) as unknown;
    expect(canonicalJson(sample)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });

  // RFC 8785 section 3.2.3: keys by UTF-16 code units, so the surrogate pair stands before U+FB33; from memory.
  it('sorts keys by UTF-16 code units', () => {
    const keys = { '\u20ac': 1, '\r': 2, '\ufb33': 3, '1': 4, '\ud83d\ude00': 5, '\u0080': 6, '\u00f6': 7 };
    expect(Object.values(JSON.parse(canonicalJson(keys)) as object).sort()).toEqual([1, 2, 3, 4, 5, 6, 7]);
    expect([...canonicalJson(keys).matchAll(/:(\d)/g)].map((match) => match[1])).toEqual([
      '2',
      '4',
      '6',
      '7',
      '1',
      '5',
      '3',
    ]);
  });

  it('does not depend on the order in which keys were written', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (record) => {
        const reversed = Object.fromEntries(Object.entries(record).reverse());
        expect(canonicalJson(reversed)).toBe(canonicalJson(record));
      }),
    );
  });

  it('refuses what JSON cannot hold', () => {
    expect(() => canonicalJson({ a: [Number.NaN] })).toThrow(RangeError);
  });

  it('is hashed with SHA-256', () => {
    // FIPS 180-4 gives the function; the independent value is Node's own over the text typed out.
    const typed = createHash('sha256').update('{"a":1,"b":[2]}').digest('hex');
    expect(digest({ b: [2], a: 1 })).toBe(`sha-256:${typed}`);
  });
});
