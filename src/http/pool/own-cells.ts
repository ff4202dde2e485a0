import { resultHeadings } from '../../render/csv/result-cells.js';
import type { ItemId } from '../../verify/batch/read-item.js';
import type { RawItem } from '../../verify/batch/raw-item.js';
import type { BatchSettings } from './chunk.js';

/** Where no table came in, a result is placed by these. */
const PLACE = ['index', 'id'];
const ours = new Set(resultHeadings('full'));

/** Headings ahead of the results: the table's own, or the place. Results of an earlier run are replaced, not repeated. */
export function ownHeadings({ headings }: Pick<BatchSettings, 'headings'>): readonly string[] {
  return headings?.filter((heading) => !ours.has(heading)) ?? PLACE;
}

/** The cells under `ownHeadings`. */
export function ownCells(
  { index, content }: RawItem,
  id: ItemId,
  { headings }: Pick<BatchSettings, 'headings'>,
): ReadonlyArray<string | number | null> {
  if (headings === undefined) return [index, id];
  const { cells = [] } = content.form === 'json' ? {} : content;
  return headings.flatMap((heading, column) => (ours.has(heading) ? [] : [cells[column] ?? '']));
}
