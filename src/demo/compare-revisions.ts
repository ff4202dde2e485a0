import { readFile } from 'node:fs/promises';
import type { Verdict } from '../rules/finding.js';
import type { Comparison } from '../verify/compare/compare-schemas.js';
import { callService } from './call-service.js';
import type { FormCars } from './form-cars.js';
import type { Progress } from './progress.js';
import { type CircuitChange, reviseCircuit } from './revise-circuit.js';
import type { Verified } from './submission.js';

const FILE = new URL('event/second-revisions.json', import.meta.url);

interface Expected {
  readonly verdict: Verdict;
  readonly resolved: readonly string[];
  readonly new: readonly string[];
}

/** A car's second revision: a change to its description, or other cells in its row. */
type Revision = { readonly expected: Expected } & (
  | { readonly id: string; readonly change: CircuitChange }
  | { readonly car: string; readonly cells: Readonly<Record<string, string>> }
);

export interface Compared {
  readonly car: string;
  /** Of the first revision, as it was verified by itself. */
  readonly first: Verdict;
  /** What a calculation by hand says. */
  readonly expected: Expected;
  readonly comparison: Comparison;
}

/** Has the second revision of each car that sent one compared with the first. */
export async function compareRevisions(
  address: string,
  verified: readonly Verified[],
  form: FormCars,
  progress: Progress,
): Promise<Compared[]> {
  const revisions = JSON.parse(await readFile(FILE, 'utf8')) as readonly Revision[];
  const compared: Compared[] = [];
  for (const revision of revisions) {
    const id = 'id' in revision ? revision.id : revision.car;
    const first = verified.find((one) => one.submission.id === id);
    if (first === undefined) throw new Error(`${id} sent a second revision and no first`);
    const { circuit, ruleset, event } = first.submission.request;
    const pair =
      'change' in revision
        ? { before: circuit, after: reviseCircuit(circuit, revision.change) }
        : await drawnPair(address, form, revision);
    const comparison = await callService<Comparison>(address, '/v1/compare', {
      ...pair,
      ruleset,
      ...(event === undefined ? {} : { event }),
    });
    compared.push({ car: circuit.title, first: first.report.verdict, expected: revision.expected, comparison });
    progress.show(`${compared.length} of ${revisions.length} second revisions compared`);
  }
  progress.clear();
  return compared;
}

/** The circuits that a row stands for before and after. */
async function drawnPair(
  address: string,
  { rows }: FormCars,
  { car, cells }: { readonly car: string; readonly cells: Readonly<Record<string, string>> },
): Promise<{ before: unknown; after: unknown }> {
  const row = rows.find((one) => one['car'] === car);
  const draw = async (changed: object): Promise<unknown> =>
    (await callService<{ circuit: unknown }>(address, '/v1/circuits', { row: { ...row, ...changed } })).circuit;
  return { before: await draw({}), after: await draw(cells) };
}
