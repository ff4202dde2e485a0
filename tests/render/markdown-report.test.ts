import { describe, expect, test } from 'vitest';
import { markdownReport } from '../../src/render/index.js';
import { sampleReport } from './sample-report.js';

const text = markdownReport(sampleReport, { title: 'Sedge', summary: 'A car.' });
const section = (heading: string): string => text.split(/^## /m).find((part) => part.startsWith(`${heading}\n`)) ?? '';
const headings = Array.from(text.matchAll(/^## (.+)$/gm), ([, heading]) => heading);

describe('the Markdown report', () => {
  test('begins with the car, the verdict and what a verdict is not', () => {
    expect(text.split('\n').slice(0, 5).join('\n')).toBe(
      '# Sedge: violation found\n\nA car.\n\n**The circuit as described breaks at least one rule.** ' +
        'This is high voltage and it can kill. A computed result is no permission.',
    );
  });

  test('has its sections by urgency', () => {
    expect(headings).toEqual([
      'Violated',
      'Undetermined',
      'Advice',
      'Met',
      'Not applicable',
      'Pre-charge',
      'Discharge',
      'Limits',
      'Design windows',
      'On the car',
      'Cautions',
      'Assumed, because not stated',
      'Made from',
    ]);
  });

  test('puts every finding in exactly the section of its status and weight', () => {
    const places: ReadonlyArray<readonly [string, string]> = [
      ['discharge-time', 'Violated'],
      ['discharge-unfused', 'Violated'],
      ['precharge-setting', 'Undetermined'],
      ['restart-heat', 'Advice'],
      ['highest-voltage', 'Met'],
      ['no-ptc', 'Not applicable'],
    ];
    for (const { rule, message } of sampleReport.findings) {
      const place = places.find(([name]) => name === rule)?.[1] ?? '';
      expect(section(place)).toContain(`\`${rule}\``);
      expect(text.split(message)).toHaveLength(2);
    }
  });

  test('says what to do, what to look at, what is missing and where the rule stands', () => {
    expect(section('Violated')).toContain(
      '- What to do: Take at most 3.9 kΩ.\n- Look at: The resistor’s print.\n- Parts: `r\\|1`',
    );
    expect(section('Violated')).toContain('- Source: Invented Book, 1 (second-hand: check the book): A 1.2, A 1.3');
    expect(section('Violated')).toContain('- Follows from: `discharge-time`');
    expect(section('Undetermined')).toContain('- Not stated: `#/circuit/control/precharge/comparisonError`');
    expect(section('Undetermined')).toMatch(/- Source: Invented Book, 1: A 1\.2$/m);
  });

  test('shows figures with three ends, and a reason where there is no number', () => {
    const rows = section('Pre-charge').replace(/ +/g, ' ');
    expect(rows).toContain(
      '| What the link gets to in the end, of the open-circuit voltage | 97.1 % | 97.65 % | 98.2 % |',
    );
    expect(rows).toContain('| Time to the threshold | 710 ms | 710 ms | never |');
    expect(rows).toContain('| Energy in the resistor if left on | never ends | never ends | never ends |');
    expect(rows).toContain('| Highest temperature of the resistor | not stated | not stated | not stated |');
  });

  test('shows the order of closing as steps', () => {
    expect(section('Pre-charge')).toContain(
      '1. at 0 s: close `k1`, `k2`; open `k4`\n2. when the link has risen to 96 %: close `k3`\n3. 10 s later: release',
    );
  });

  test('shows each separation state, and the heat of each discharge resistor once', () => {
    const rows = section('Discharge').replace(/ +/g, ' ');
    expect(rows).toContain('| disconnect open | 504 V | 4.1 s | 5.6 s | 71.2 V | no | `r\\|1` |');
    expect(rows).toContain('| container removed `rear` (not asked for) | 504 V | – | – | – | undetermined | nothing |');
    expect(rows).toContain('| `r\\|1` | 56.9 W | 44.7 J |');
    // The largest of each figure, and the heads say so.
    expect(rows).toContain(
      '| State | starts at, at most | time, nominal | time, longest | left at the time limit, at most | in time |',
    );
    expect(rows).toContain('| Resistor | power with the highest voltage held, at most | energy of one fall, at most |');
  });

  test('shows limits with their margins and the windows', () => {
    expect(section('Limits').replace(/ +/g, ' ')).toContain(
      '| `r\\|1` | `discharge-resistance-max-time` | at most 3.9 kΩ | 4.7 kΩ | -17 % | no | yes | `discharge-time` |',
    );
    expect(section('Design windows').replace(/ +/g, ' ')).toContain('1.5 kΩ to 3.9 kΩ | 2.4 kΩ, 2.7 kΩ');
  });

  test.each([
    [{ min: null, max: null }, 'not bounded'],
    [{ min: null }, 'no lower end to 3.9 kΩ'],
    [{ max: null }, '1.5 kΩ to no upper end'],
    [{ empty: true, explanation: 'heat wants more, time wants less.' }, 'empty: heat wants more, time wants less.'],
  ])('a window with %j reads %j', (change, wanted) => {
    const windows = sampleReport.windows.map((window) => ({ ...window, ...change }));
    expect(markdownReport({ ...sampleReport, windows }, { title: 'x' })).toContain(`| ${wanted}`);
  });

  test('says a note on several limits once, behind their names', () => {
    const [limit] = sampleReport.limits;
    const limits = ['one', 'other', 'third'].map((name) => ({
      ...limit!,
      name,
      note: name === 'third' ? 'Another note.' : 'A note.',
    }));
    expect(markdownReport({ ...sampleReport, limits }, { title: 'x' })).toContain(
      '\n- `one`, `other`: A note.\n- `third`: Another note.\n',
    );
  });

  test.each([
    ['clicks', { min: 0, max: 0 }, 'no click'],
    ['s', { min: 1.5, max: 3 }, 'at least 1.5 s, at most 3 s'],
    ['V', { min: null, max: 60 }, 'at most 60 V'],
    ['Ω', { min: 1000, max: null }, 'at least 1 kΩ'],
  ])('says of a test on the car in %s with %j: expect %s', (unit, expected, words) => {
    const [test] = sampleReport.carTests;
    const carTests = [{ ...test!, unit, expect: expected }];
    expect(markdownReport({ ...sampleReport, carTests }, { title: 'x' })).toContain(` Expect ${words}.\n`);
  });

  test('says what the event changed and what was assumed', () => {
    expect(section('Assumed, because not stated')).toContain('- `#/circuit/elements/6/resistance`: ± 10 %');
    expect(section('Made from')).toContain('- The event’s own energy meter: 47 kΩ');
    expect(section('Made from')).toContain('- The event sets `threshold` to `0.95`; the book has `0.9`');
  });

  test('carries every caution', () => {
    for (const caution of sampleReport.cautions) expect(section('Cautions')).toContain(`- ${caution.text}`);
  });

  test('never speaks an official’s words', () => {
    expect(text).not.toMatch(/(?<!fail-)\bsafe\b|\bpassed\b|\bapproved?\b/i);
  });

  test('every table row has as many cells as its heading', () => {
    // A cell is cut at each `|` without a backslash before it (GitHub Flavored Markdown 4.10).
    const cells = (line: string): number => line.split(/(?<!\\)\|/).length;
    const lines = text.split('\n');
    lines.forEach((line, index) => {
      if (line.startsWith('|') && lines[index - 1]?.startsWith('|') === true) {
        expect(cells(line)).toBe(cells(lines[index - 1] ?? ''));
      }
    });
    expect(lines.filter((line) => line.startsWith('|')).length).toBeGreaterThan(20);
  });

  test('a report without findings, limits or discharge still reads', () => {
    const bare = markdownReport(
      { ...sampleReport, findings: [], limits: [], windows: [], discharge: [], carTests: [] },
      { title: 'x' },
    );
    expect(Array.from(bare.matchAll(/^## (.+)$/gm), ([, heading]) => heading)).toEqual([
      'Pre-charge',
      'Cautions',
      'Assumed, because not stated',
      'Made from',
    ]);
  });
});
