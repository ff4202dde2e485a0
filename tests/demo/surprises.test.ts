import { describe, expect, test } from 'vitest';
import { commonestMistakes } from '../../src/demo/commonest-mistakes.js';
import type { Submission, Verified } from '../../src/demo/submission.js';
import { surprises } from '../../src/demo/surprises.js';
import { worstThing } from '../../src/demo/worst-thing.js';
import { sampleReport } from '../render/sample-report.js';

const submission = (expected: Partial<Submission['expected']>, title = 'Sedge'): Submission => ({
  id: 'sedge',
  title,
  summary: '',
  request: { circuit: { title }, ruleset: 'student-ev-2020' },
  expected: {
    verdict: 'violation-found',
    violated: ['discharge-time', 'discharge-unfused', 'restart-heat'],
    undetermined: ['precharge-setting'],
    ...expected,
  },
});
const verified = (expected: Partial<Submission['expected']>, title?: string): Verified => ({
  submission: submission(expected, title),
  report: sampleReport,
});

describe('surprises', () => {
  test('there are none where the answer is as calculated', () => {
    expect(surprises([verified({})])).toEqual([]);
  });

  test.each([
    [{ verdict: 'undetermined' as const }, 'sedge: verdict: expected undetermined, got violation-found'],
    [
      { violated: ['discharge-time'] },
      'sedge: violated: expected discharge-time, got discharge-time, discharge-unfused, restart-heat',
    ],
    [{ undetermined: [] }, 'sedge: undetermined: expected nothing, got precharge-setting'],
  ])('%j is one', (expected, sentence) => {
    expect(surprises([verified(expected)])).toEqual([sentence]);
  });
});

describe('the commonest mistakes', () => {
  test('are counted by car, consequences and advice left out', () => {
    const mistakes = commonestMistakes([verified({}, 'Sedge'), verified({}, 'Tansy')]);
    expect(mistakes).toEqual([{ title: 'Discharge in time', cars: ['Sedge', 'Tansy'] }]);
  });
});

describe('the worst thing', () => {
  const { findings } = sampleReport;

  test('is what is violated by itself, not its consequence', () => {
    expect(worstThing(sampleReport)).toBe(findings[0]?.message);
  });

  test('is what is open where nothing is violated', () => {
    const open = { ...sampleReport, findings: findings.filter(({ status }) => status !== 'violated') };
    expect(worstThing(open)).toBe('The error of the comparison is not stated.');
  });

  test('is the tightest limit of a car without either, advice counted', () => {
    const advised = { ...sampleReport, findings: findings.filter(({ weight }) => weight === 'advice') };
    expect(worstThing(advised)).toBe('Tightest: r|1 may be at most 3.9 kΩ and is 4.7 kΩ. Advice: 1.');
    const [limit] = sampleReport.limits;
    const setting = { ...limit!, name: 'a-setting', unit: '', nominal: 0.95, present: 0.951, margin: 0.001 };
    expect(worstThing({ ...advised, limits: [setting, ...sampleReport.limits] })).toBe(worstThing(advised));
  });

  test('is where the link gets to, which is true of loads that keep it swinging too, where no limit is known', () => {
    expect(worstThing({ ...sampleReport, findings: [], limits: [] })).toBe('The link gets to 97.1 % or more.');
  });
});
