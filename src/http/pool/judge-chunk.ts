import { CircuitFault } from '../../circuit/fault.js';
import { csvLine } from '../../render/csv/csv-cell.js';
import { figureCells, verdictCells } from '../../render/csv/result-cells.js';
import { outcomeOf } from '../../verify/batch/batch-counts.js';
import { judgeForSummary, judgeFully, judgeVerdict, type Readable } from '../../verify/batch/judge-item.js';
import { type ItemId, type ItemReading, readItem, readRecord } from '../../verify/batch/read-item.js';
import type { RawItem } from '../../verify/batch/raw-item.js';
import { verdictAnswer } from '../../verify/batch/verdict-answer.js';
import { readHeaders, type Headers } from '../../verify/rows/header.js';
import { httpCapacities } from '../http-capacities.js';
import { readJson } from '../json/read-json.js';
import { serialise } from '../json/serialise.js';
import { asProblem, invalidRequest } from '../problems/as-problem.js';
import { HttpProblem } from '../problems/http-problem.js';
import { ownCells } from './own-cells.js';
import type { BatchSettings, Chunk, ItemResult } from './chunk.js';
import { problemResult } from './problem-result.js';

/** Judges the items one after the other; what is wrong with one is its own answer and no other's. */
export function* judgeChunk({ settings, items, progress }: Chunk): Generator<ItemResult> {
  const headers = readHeaders(settings.headings ?? []);
  const begun = progress === undefined ? undefined : new Int32Array(progress);
  for (const item of items) {
    if (begun !== undefined) Atomics.add(begun, 0, 1);
    yield judgeItem(item, settings, headers);
  }
}

function judgeItem(item: RawItem, settings: BatchSettings, headers: Headers): ItemResult {
  let id: ItemId = null;
  try {
    const reading = read(item, settings, headers);
    ({ id } = reading);
    if ('faults' in reading) return problemResult(item, id, invalidRequest(reading.faults), settings);
    return answer(item, reading, settings);
  } catch (error) {
    const problem = asProblem(error);
    const result = problemResult(item, id, problem, settings);
    if (problem.status < 500) return result;
    return { ...result, failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}

function read({ content }: RawItem, settings: BatchSettings, headers: Headers): ItemReading {
  const { defaults } = settings;
  switch (content.form) {
    case 'json':
      return readItem(readJson(content.bytes), defaults);
    case 'cells':
      return readRecord({ headers, cells: content.cells }, defaults);
    case 'refused':
      throw refusal(content.why, settings.headings !== undefined);
  }
}

const { batchLineBytes: bytes, batchRecordCharacters: characters, batchRecordLines: lines } = httpCapacities;

function refusal(why: 'too-long' | 'unclosed-quote' | 'unclosed-list', isTable: boolean): HttpProblem {
  switch (why) {
    case 'too-long': {
      const detail = isTable
        ? `The row has more than ${characters} characters or runs over more than ${lines} lines; it was skipped.`
        : `The item has more than ${bytes} bytes; it was skipped.`;
      return new HttpProblem('line-too-long', detail);
    }
    case 'unclosed-quote':
      return new HttpProblem('malformed-csv', 'A quote is opened on this line and not closed; the line was skipped.');
    case 'unclosed-list':
      return new HttpProblem('malformed-json', 'The list breaks off or goes on behind its end; the rest was not read.');
  }
}

function answer(item: RawItem, reading: Readable, settings: BatchSettings): ItemResult {
  const { index, line } = item;
  const { id, row } = reading;
  try {
    if (settings.detail === 'summary') {
      const record = judgeForSummary(reading);
      return { index, id, outcome: outcomeOf[record.verdict], text: '', record };
    }
    const place = { index, id, ...(line === undefined ? {} : { line }), status: 200 };
    if (settings.detail === 'verdict') {
      const found = judgeVerdict(reading);
      const cells = () => verdictCells(found);
      return {
        index,
        id,
        outcome: outcomeOf[found.verdict],
        text: textOf({ ...place, ...found }, cells, item, id, settings),
      };
    }
    const report = judgeFully(reading);
    const cells = () => [...verdictCells(verdictAnswer(report.verdict, report.findings)), ...figureCells(report)];
    return {
      index,
      id,
      outcome: outcomeOf[report.verdict],
      text: textOf({ ...place, ...report }, cells, item, id, settings),
    };
  } catch (error) {
    if (!(error instanceof CircuitFault) || row === undefined) throw error;
    throw new CircuitFault(error.faults.map((fault) => ({ ...fault, pointer: row.toColumn(fault.pointer) })));
  }
}

function textOf(
  answered: object,
  cells: () => ReadonlyArray<string | number | null>,
  item: RawItem,
  id: ItemId,
  settings: BatchSettings,
): string {
  if (settings.output === 'json') return serialise(answered);
  return csvLine([...ownCells(item, id, settings), ...cells()], settings.csv);
}
