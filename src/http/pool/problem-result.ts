import { csvLine } from '../../render/csv/csv-cell.js';
import { faultSentences } from '../../render/csv/fault-sentences.js';
import { problemCells } from '../../render/csv/result-cells.js';
import { showPlace } from '../../render/show-place.js';
import { elementIds } from '../../verify/batch/element-ids.js';
import type { ItemId } from '../../verify/batch/read-item.js';
import type { RawItem } from '../../verify/batch/raw-item.js';
import { serialise } from '../json/serialise.js';
import type { HttpProblem } from '../problems/http-problem.js';
import { problemDocument } from '../problems/problem-document.js';
import type { BatchSettings, ItemResult } from './chunk.js';
import { ownCells } from './own-cells.js';

/**
 * The result of an item that could not be answered.
 * @param body the item's own, as far as it could be read
 */
export function problemResult(
  item: RawItem,
  id: ItemId,
  problem: HttpProblem,
  settings: BatchSettings,
  body?: unknown,
): ItemResult {
  const { index, line } = item;
  const errors = problem.options.errors ?? [];
  const places = errors.flatMap(({ pointer }) => pointer ?? []);
  const elements = elementIds(body, places);
  const common = { index, id, outcome: 'errors', problem: { code: problem.code, places } } as const;
  if (settings.detail === 'summary') return { ...common, elements, text: '' };
  if (settings.output === 'csv') {
    const sentences =
      errors.length === 0
        ? [problem.detail]
        : faultSentences(
            errors.map(({ pointer = '', ...fault }) => ({ ...fault, place: showPlace(pointer, elements[pointer]) })),
          );
    const cells = [...ownCells(item, id, settings), ...problemCells(problem.status, sentences, settings.detail)];
    return { ...common, text: csvLine(cells, settings.csv) };
  }
  const place = { index, id, ...(line === undefined ? {} : { line }), status: problem.status };
  return { ...common, text: serialise({ ...place, problem: problemDocument(problem, settings.requestId) }) };
}
