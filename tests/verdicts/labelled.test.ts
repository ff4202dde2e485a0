import { beforeAll, describe, expect, it } from 'vitest';
import { rules } from '../../src/rules/rules.js';
import { judged, withStatus } from './judged.js';
import { type Labelled, labelledSet } from './labelled-set.js';

const set = labelledSet(2);

/** Mistakes that break two rules neither of which follows from the other, so that each names a cure of its own. */
const TWOFOLD: ReadonlySet<string> = new Set([
  // The main path goes on without it, and what it parts is the discharge.
  'the disconnect in the discharge’s lead instead of the main path',
  // What stands in the container keeps its charge there, and the points are elsewhere.
  'a filter capacitor inside the container, on the vehicle’s side of its relays',
]);

interface Row {
  found: number;
  missed: number;
  falseAlarm: number;
}

/** A labelled circuit with what the rules say of it. */
interface Seen {
  readonly labelled: Labelled;
  readonly violated: readonly string[];
  readonly undetermined: readonly string[];
  /** Violations that name no other finding as their cause. */
  readonly roots: readonly string[];
}

const seen: Seen[] = [];

beforeAll(() => {
  for (const labelled of set) {
    const findings = judged(labelled.circuit, labelled.book.id);
    const violated = withStatus(findings, 'violated').filter((rule) => !labelled.tolerated.includes(rule));
    const roots = findings.filter(({ status, causedBy }) => status === 'violated' && causedBy === undefined);
    seen.push({
      labelled,
      violated,
      undetermined: withStatus(findings, 'undetermined'),
      roots: roots.map(({ rule }) => rule),
    });
  }
}, 120_000);

function confusion(): ReadonlyMap<string, Row> {
  const rows = new Map<string, Row>(rules.map(({ meta }) => [meta.id, { found: 0, missed: 0, falseAlarm: 0 }]));
  for (const { labelled, violated } of seen) {
    for (const rule of labelled.violated) rows.get(rule)![violated.includes(rule) ? 'found' : 'missed'] += 1;
    for (const rule of violated) if (!labelled.violated.includes(rule)) rows.get(rule)!.falseAlarm += 1;
  }
  return rows;
}

function printed(rows: ReadonlyMap<string, Row>): string {
  const line = (name: string, cells: readonly (string | number)[]) =>
    `${name.padEnd(32)}${cells.map((cell) => String(cell).padStart(12)).join('')}`;
  return [
    `${String(seen.length)} labelled circuits`,
    line('rule', ['found', 'missed', 'false alarm']),
    ...[...rows].map(([rule, { found, missed, falseAlarm }]) => line(rule, [found, missed, falseAlarm])),
    '',
  ].join('\n');
}

describe('the labelled set', () => {
  it('finds every seeded mistake and raises no false alarm', () => {
    const rows = confusion();
    process.stdout.write(printed(rows));
    const wrong = seen.flatMap(({ labelled, violated }) => {
      const missed = labelled.violated.filter((rule) => !violated.includes(rule));
      const falseAlarms = violated.filter((rule) => !labelled.violated.includes(rule));
      return missed.length + falseAlarms.length === 0 ? [] : [{ circuit: labelled.name, missed, falseAlarms }];
    });
    expect(wrong).toEqual([]);
  });

  it('leaves nothing open in a fully stated car but what its label says', () => {
    const wrong = seen
      .filter(({ labelled, undetermined }) => undetermined.join() !== labelled.undetermined.join())
      .map(({ labelled, undetermined }) => ({ circuit: labelled.name, undetermined }));
    expect(wrong).toEqual([]);
  });

  it('names one finding for each mistake, and every other as its consequence', () => {
    const wrong = seen
      .filter(({ labelled }) => ![...TWOFOLD].some((mistake) => labelled.name.includes(`, ${mistake}, `)))
      .filter(({ violated, roots }) => violated.length > 0 && roots.length !== 1)
      .map(({ labelled, roots }) => ({ circuit: labelled.name, roots }));
    expect(wrong).toEqual([]);
  });

  it('is large enough, and its labels ask for more than nothing', () => {
    expect(set.length).toBeGreaterThanOrEqual(120);
    expect(set.filter(({ violated }) => violated.length > 0).length).toBeGreaterThan(200);
    expect(set.filter(({ name }) => name.includes(', sound,')).length).toBeGreaterThanOrEqual(50);
  });

  it('has a mistake for every rule but those about machines and events, which these cars do not have', () => {
    const without = [...confusion()].filter(([, { found, missed }]) => found + missed === 0).map(([rule]) => rule);
    expect(without.sort()).toEqual(['discharge-while-coasting', 'event-meter-differs']);
  });
});
