import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { codeSpan } from '../../src/render/markdown/code-span.js';
import { escapeMarkdown } from '../../src/render/markdown/escape-markdown.js';

/** CommonMark 0.31 section 2.4: a backslash before ASCII punctuation stands for that character. */
const shown = (markdown: string): string => markdown.replace(/\\([!-/:-@[-`{-~])/g, '$1');

describe('escapeMarkdown', () => {
  test.each([
    ['a | b', 'a \\| b'],
    ['<img src=x>', '\\<img src=x\\>'],
    ['**loud**', '\\*\\*loud\\*\\*'],
    ['line\nbreak\t here', 'line break here'],
    ['- no list', '\\- no list'],
    ['1. no list', '1\\. no list'],
    ['2.3 s is a number', '2.3 s is a number'],
    ['see https://x.example', 'see https\\://x.example'],
    ['47 kΩ ± 5 %', '47 kΩ ± 5 %'],
  ])('%j becomes %j', (given, wanted) => {
    expect(escapeMarkdown(given)).toBe(wanted);
  });

  test('what is shown is what was given, blanks aside', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 40 }), (given) => {
        expect(shown(escapeMarkdown(given))).toBe(given.replace(/\s+/g, ' ').trim());
      }),
      { seed: 7 },
    );
  });

  test('no angle bracket, pipe or backtick is left bare', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 40 }), (given) => {
        expect(escapeMarkdown(given)).not.toMatch(/(?<!\\)(?:\\\\)*[<>|`]/);
      }),
      { seed: 7 },
    );
  });
});

describe('codeSpan', () => {
  test.each([
    ['r1', '`r1`'],
    ['a`b', '``a`b``'],
    ['`', '`` ` ``'],
    ['a|b', '`a\\|b`'],
  ])('%j becomes %j', (given, wanted) => {
    expect(codeSpan(given)).toBe(wanted);
  });
});
