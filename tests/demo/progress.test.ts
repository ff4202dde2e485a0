import { describe, expect, test } from 'vitest';
import { progressOn } from '../../src/demo/progress.js';

describe('progress', () => {
  test('on a terminal is one line that is rewritten and taken away', () => {
    const written: string[] = [];
    const progress = progressOn((text) => written.push(text), true);
    progress.show('9 of 10');
    progress.show('10 of 10');
    progress.clear();
    expect(written).toEqual(['\r\u001b[2K9 of 10', '\r\u001b[2K10 of 10', '\r\u001b[2K']);
  });

  test('elsewhere is nothing', () => {
    const written: string[] = [];
    const progress = progressOn((text) => written.push(text), false);
    progress.show('1 of 10');
    progress.clear();
    expect(written).toEqual([]);
  });
});
