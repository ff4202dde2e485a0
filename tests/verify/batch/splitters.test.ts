import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LineSplitter } from '../../../src/verify/batch/line-splitter.js';
import { ListSplitter } from '../../../src/verify/batch/list-splitter.js';
import type { RawItem } from '../../../src/verify/batch/raw-item.js';

const LIMIT = 60;
const bytesOf = (text: string) => new TextEncoder().encode(text);

function* pieces(bytes: Uint8Array, size: number): Generator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.slice(at, at + size);
}

const shown = ({ index, line, content }: RawItem) => [
  index,
  line,
  content.form === 'json'
    ? new TextDecoder().decode(content.bytes).trim()
    : content.form === 'refused'
      ? content.why
      : '',
];

function lines(text: string, size = 1e6) {
  const splitter = new LineSplitter(LIMIT);
  return [...[...pieces(bytesOf(text), size)].flatMap((piece) => splitter.push(piece)), ...splitter.end()].map(shown);
}

function list(text: string, size = 1e6) {
  const splitter = new ListSplitter(LIMIT);
  const items: RawItem[] = [];
  for (const piece of pieces(bytesOf(text), size)) {
    const found = splitter.push(piece);
    if (found === undefined) return 'no list';
    items.push(...found);
  }
  return [...items, ...splitter.end()].map(shown);
}

describe('lines', () => {
  it.each<[string, string, unknown[]]>([
    [
      'with line feeds',
      '{"a":1}\n{"b":2}\n',
      [
        [0, 1, '{"a":1}'],
        [1, 2, '{"b":2}'],
      ],
    ],
    [
      'with carriage returns too',
      '{"a":1}\r\n{"b":2}\r\n',
      [
        [0, 1, '{"a":1}'],
        [1, 2, '{"b":2}'],
      ],
    ],
    [
      'without a last one',
      '1\n2',
      [
        [0, 1, '1'],
        [1, 2, '2'],
      ],
    ],
    [
      'blank ones between',
      '\n \t\r\n1\n\n\n2\n',
      [
        [0, 3, '1'],
        [1, 6, '2'],
      ],
    ],
    [
      'one that is too long',
      `1\n${'x'.repeat(99)}\n3`,
      [
        [0, 1, '1'],
        [1, 2, 'too-long'],
        [2, 3, '3'],
      ],
    ],
    ['one that just is not', `${'x'.repeat(LIMIT)}\n`, [[0, 1, 'x'.repeat(LIMIT)]]],
    ['nothing', '', []],
  ])('%s', (_name, text, wanted) => {
    for (const size of [1e6, 1, 2, 7]) expect(lines(text, size)).toEqual(wanted);
  });
});

describe('a list', () => {
  it.each<[string, string, unknown]>([
    [
      'of objects',
      ' [ {"a":[1,2]} , {"b":"]"} ] ',
      [
        [0, undefined, '{"a":[1,2]}'],
        [1, undefined, '{"b":"]"}'],
      ],
    ],
    ['of nothing', '[]', []],
    ['of nothing, with spaces', '[ \n ]', []],
    [
      'with quotes in texts',
      '["\\"],", "\\\\"]',
      [
        [0, undefined, '"\\"],"'],
        [1, undefined, '"\\\\"'],
      ],
    ],
    [
      'with an item missing',
      '[1,,2]',
      [
        [0, undefined, '1'],
        [1, undefined, ''],
        [2, undefined, '2'],
      ],
    ],
    [
      'that ends with a comma',
      '[1,]',
      [
        [0, undefined, '1'],
        [1, undefined, ''],
      ],
    ],
    [
      'with an item too long',
      `[1,"${'x'.repeat(99)}",3]`,
      [
        [0, undefined, '1'],
        [1, undefined, 'too-long'],
        [2, undefined, '3'],
      ],
    ],
    [
      'that breaks off',
      '[1,{"a":',
      [
        [0, undefined, '1'],
        [1, undefined, 'unclosed-list'],
      ],
    ],
    [
      'that goes on',
      '[1] x [2]',
      [
        [0, undefined, '1'],
        [1, undefined, 'unclosed-list'],
      ],
    ],
    [
      'with a brace too many',
      '[},{"a":1}]',
      [
        [0, undefined, '}'],
        [1, undefined, '{"a":1}'],
      ],
    ],
    ['with a byte order mark', '\uFEFF[1]', [[0, undefined, '1']]],
    ['that is an object', ' {"circuit":{}}', 'no list'],
  ])('%s', (_name, text, wanted) => {
    for (const size of [1e6, 1, 2, 7]) expect(list(text, size)).toEqual(wanted);
  });

  it('of any JSON values comes apart as JSON.parse has it, in any pieces', () => {
    const short = fc.array(fc.jsonValue({ maxDepth: 2 }).filter((one) => bytesOf(JSON.stringify(one)).length <= LIMIT));
    fc.assert(
      fc.property(short, fc.integer({ min: 1, max: 40 }), (values, size) => {
        const items = list(JSON.stringify(values), size);
        expect((items as unknown[][]).map(([, , text]) => JSON.parse(String(text)) as unknown)).toEqual(
          JSON.parse(JSON.stringify(values)),
        );
      }),
      { numRuns: 200 },
    );
  });
});
