import { describe, expect, it } from 'vitest';
import { faultSentences } from '../../src/render/csv/fault-sentences.js';

describe('faults in one cell', () => {
  it('say once what they all say, with every place', () => {
    const why = 'without it the circuit cannot be drawn.';
    const missing = (place: string) => ({ place, detail: `\`${place}\` is not stated: ${why}` });
    expect(
      faultSentences([missing('a'), { place: 'b', detail: '`b` is not a number.' }, missing('c'), missing('d')]),
    ).toEqual([`\`a\` is not stated: ${why} The same goes for \`c\`, \`d\`.`, '`b` is not a number.']);
  });

  it('have their place ahead where they do not name it', () => {
    const place = 'elements "f": ratedCurrent';
    expect(faultSentences([{ place, detail: 'It is a voltage.' }])).toEqual([`${place}: It is a voltage.`]);
    expect(faultSentences([{ place: '', detail: 'It is too long.' }])).toEqual(['It is too long.']);
  });

  it('stay apart where they say different things of one place', () => {
    const faults = ['`a` is one.', '`a` is other.'].map((detail) => ({ place: 'a', detail }));
    expect(faultSentences(faults)).toEqual(['`a` is one.', '`a` is other.']);
  });

  it('say what is accepted, once for the places that accept the same', () => {
    const missing = (place: string, accepted: string) => ({ place, detail: `\`${place}\` is not stated.`, accepted });
    expect(faultSentences([missing('a', 'x')])).toEqual(['`a` is not stated. Accepted: x.']);
    expect(
      faultSentences([missing('a', 'x'), missing('b', 'y'), missing('c', 'x'), missing('d', 'y'), missing('e', 'z')]),
    ).toEqual(['`a` is not stated. Accepted: x. The same goes for `c`; `b`, `d` (accepted: y); `e` (accepted: z).']);
  });

  it('do not repeat what the sentence says', () => {
    const bounds = {
      place: 'a',
      detail: '`1.5` is not a whole number from 1 to 8.',
      accepted: 'a whole number from 1 to 8',
    };
    const words = { place: 'b', detail: '`maybe` is neither `yes` nor `no`.', accepted: '`yes` or `no`' };
    expect(faultSentences([bounds, words])).toEqual([`a: ${bounds.detail}`, `b: ${words.detail}`]);
    const some = { place: 'c', detail: 'Write `none` where there is none.', accepted: 'one of `none` or `here`' };
    expect(faultSentences([some])).toEqual([`c: ${some.detail} Accepted: ${some.accepted}.`]);
  });
});
