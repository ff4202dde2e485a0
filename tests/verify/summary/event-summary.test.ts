import { describe, expect, it } from 'vitest';
import { summaryCsv } from '../../../src/render/summary/summary-csv.js';
import { summaryMarkdown } from '../../../src/render/summary/summary-markdown.js';
import type { CarRecord } from '../../../src/verify/summary/car-record.js';
import { CLOSE_MARGIN, EventSummariser, SUMMARY_LENGTHS } from '../../../src/verify/summary/event-summary.js';

type Found = Partial<CarRecord['findings'][number]>;
const finding = (rule: string, status: 'met' | 'violated' | 'undetermined' | 'not-applicable', more: Found = {}) => ({
  rule,
  title: `About ${rule}`,
  status,
  weight: 'rule' as const,
  ...more,
});
const margin = (share: number, limit = 'a-limit') => ({
  limit,
  element: 'part',
  unit: 'Ω',
  present: 1000 * (1 - share),
  nominal: 1000,
  margin: share,
});

/** Four invented cars: one breaks two rules (one as a consequence), one is open, one is close, one cannot be read. */
function summariser() {
  const all = new EventSummariser();
  all.add(
    { index: 0, id: 'One' },
    {
      verdict: 'violation-found',
      findings: [
        finding('time', 'violated'),
        finding('fuse', 'violated', { causedBy: ['time'] }),
        finding('mood', 'violated', { weight: 'advice' }),
        finding('idle', 'not-applicable'),
      ],
      margins: [margin(0.2)],
    },
  );
  all.add(
    { index: 1, id: 2 },
    {
      verdict: 'undetermined',
      findings: [
        finding('time', 'undetermined', { missing: ['#/row/a', '#/row/b'] }),
        finding('fuse', 'met'),
        finding('idle', 'not-applicable'),
      ],
      margins: [],
    },
  );
  all.add(
    { index: 2, id: null },
    {
      verdict: 'no-violation-found',
      findings: [finding('time', 'met'), finding('fuse', 'met'), finding('idle', 'not-applicable')],
      margins: [margin(CLOSE_MARGIN / 2, 'near'), margin(0.5)],
    },
  );
  all.addProblem({ index: 3, id: '=cmd()' }, 'invalid-request', ['#/row/a', '#/row/a']);
  return all;
}

describe('the summary of an event', () => {
  it('counts verdicts', () => {
    expect(summariser().summary().summary).toEqual({
      count: 4,
      violationFound: 1,
      undetermined: 1,
      noViolationFound: 1,
      errors: 1,
    });
  });

  it('counts each rule in force, those most often violated first', () => {
    const { rules } = summariser().summary();
    expect(rules.map(({ rule, violated, undetermined, met }) => [rule, violated, undetermined, met])).toEqual([
      ['time', 1, 1, 1],
      ['fuse', 1, 0, 2],
      ['mood', 1, 0, 0],
    ]);
  });

  it('blames a car for its mistakes, not for their consequences or for advice', () => {
    expect(summariser().summary().mistakes).toEqual([{ rule: 'time', title: 'About time', cars: 1, ids: ['One'] }]);
  });

  it('lists margins, the closest first', () => {
    expect(
      summariser()
        .summary()
        .margins.map((one) => [one.index, one.margin]),
    ).toEqual([
      [2, CLOSE_MARGIN / 2],
      [0, 0.2],
      [2, 0.5],
    ]);
  });

  it('lists the cars that need another look, with the reason', () => {
    expect(summariser().summary().anotherLook).toEqual([
      { index: 0, id: 'One', reason: 'violation-found', rules: ['time', 'fuse'], missing: [], missingIn: [] },
      {
        index: 1,
        id: 2,
        reason: 'undetermined',
        rules: ['time'],
        missing: ['#/row/a', '#/row/b'],
        missingIn: [null, null],
      },
      { index: 2, id: null, reason: 'close-margin', rules: ['near'], missing: [], missingIn: [] },
      {
        index: 3,
        id: '=cmd()',
        reason: 'problem',
        rules: ['invalid-request'],
        missing: ['#/row/a'],
        missingIn: [null],
      },
    ]);
  });

  it('does not grow with the number of cars', () => {
    const all = new EventSummariser();
    const record: CarRecord = {
      verdict: 'violation-found',
      findings: [finding('time', 'violated')],
      margins: [margin(0.1)],
    };
    for (let index = 0; index < 5000; index += 1) all.add({ index, id: index }, record);
    const { summary, anotherLook, anotherLookCount, margins, mistakes } = all.summary();
    expect(summary.count).toBe(5000);
    expect(mistakes[0]?.cars).toBe(5000);
    expect(mistakes[0]?.ids).toHaveLength(SUMMARY_LENGTHS.ids);
    expect(margins).toHaveLength(SUMMARY_LENGTHS.margins);
    expect([anotherLook.length, anotherLookCount]).toEqual([SUMMARY_LENGTHS.anotherLook, 5000]);
  });
});

describe('as something to read', () => {
  it('is a page', () => {
    const page = summaryMarkdown(summariser().summary());
    expect(page).toContain('4 cars were answered.');
    expect(page).toMatch(/\| not kept: About time *\| +1 \| One/);
    // A consequence is no mistake of its own, and is counted as a finding all the same: the page says so of both tables.
    expect(page).not.toContain('not kept: About fuse');
    expect(page).toMatch(/## The commonest mistakes\n\nCauses only: .*\n\n\|/);
    expect(page).toMatch(/## Rule by rule\n\nEvery finding counts, .*\n\n\|/);
    expect(page).toContain('| no. 3 ');
    expect(page).toContain('2.5 %');
    expect(page).toContain('This is high voltage');
    expect(page).toContain('| `time`; not stated: `a`, `b` |');
    expect(page).toContain('| `invalid-request`; faults in `a` |');
    expect(page).not.toContain('#/row');
    expect(page).not.toMatch(/\b(pass|passed|approved|safe)\b/i);
  });

  it('is a table', () => {
    const lines = summaryCsv(summariser().summary()).split('\r\n');
    expect(lines[0]).toBe('section,subject,item,value');
    expect(lines).toContain('verdicts,violationFound,cars,1');
    expect(lines).toContain('mistakes,time,cars,1');
    expect(lines).toContain('margins,no. 3,near of part,0.025');
    expect(lines).toContain("another-look,'=cmd(),problem,invalid-request; a");
  });

  it.each([
    ['#/row', 'the whole row'],
    ['#', 'the whole item'],
  ])('says of a fault at %s that it is in %s', (place, words) => {
    const event = new EventSummariser();
    event.addProblem({ index: 0, id: 'One' }, 'invalid-request', [place]);
    expect(summaryMarkdown(event.summary())).toContain(`| \`invalid-request\`; faults in ${words} |`);
    expect(summaryCsv(event.summary())).toContain(`another-look,One,problem,invalid-request; ${words}\r\n`);
  });

  it('names a part by its id where one is known', () => {
    const event = new EventSummariser();
    const open = finding('time', 'undetermined', { missing: ['#/circuit/elements/15/thermal/capacitance'] });
    event.add(
      { index: 0, id: 'One', elements: { '#/circuit/elements/15/thermal/capacitance': 'precharge-resistor' } },
      { verdict: 'undetermined', findings: [open], margins: [] },
    );
    event.addProblem({ index: 1, id: 'Two', elements: { '#/circuit/elements/3': 'fuse' } }, 'invalid-request', [
      '#/circuit/elements/3',
      '#/circuit/elements/4/nodes',
    ]);
    const summary = event.summary();
    expect(summary.anotherLook.map(({ missingIn }) => missingIn)).toEqual([['precharge-resistor'], ['fuse', null]]);
    expect(summaryCsv(summary)).toContain('"time; elements ""precharge-resistor"": thermal.capacitance"');
    expect(summaryCsv(summary)).toContain('"invalid-request; elements ""fuse""; circuit/elements/4/nodes"');
    expect(summaryMarkdown(summary)).toContain('not stated: `elements "precharge-resistor": thermal.capacitance`');
  });

  it('is no error where there is nothing', () => {
    const none = new EventSummariser().summary();
    expect(summaryMarkdown(none)).not.toContain('No rule is violated.');
    expect(summaryMarkdown(none).match(/No rule was judged\./g)).toHaveLength(2);
    expect(summaryCsv(none)).toContain('verdicts,count,cars,0');
  });
});
