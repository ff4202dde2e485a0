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
});
