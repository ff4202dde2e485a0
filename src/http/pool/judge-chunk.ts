import { CircuitFault } from '../../circuit/fault.js';
import { csvLine } from '../../render/csv/csv-cell.js';
import { figureCells, verdictCells } from '../../render/csv/result-cells.js';
import { outcomeOf } from '../../verify/batch/batch-counts.js';
import { elementIds } from '../../verify/batch/element-ids.js';
import { judgeForSummary, judgeFully, judgeVerdict, type Readable } from '../../verify/batch/judge-item.js';
import { type ItemId, type ItemReading, readItem, readRecord } from '../../verify/batch/read-item.js';
import type { RawItem } from '../../verify/batch/raw-item.js';
import { verdictAnswer } from '../../verify/batch/verdict-answer.js';
import { readHeaders, type Headers } from '../../verify/rows/header.js';
import { namedCar } from '../../verify/rows/named-car.js';
import { costlyParts } from '../../verify/work/costly-parts.js';
import { expectedWork } from '../../verify/work/expected-work.js';
import { refuseCostly } from '../../verify/work/refuse-costly.js';
import { readJson } from '../json/read-json.js';
import { serialise } from '../json/serialise.js';
import { asProblem, invalidRequest } from '../problems/as-problem.js';
import { ownCells } from './own-cells.js';
import type { BatchSettings, Chunk, ItemResult } from './chunk.js';
import { problemResult } from './problem-result.js';
import { refusal } from './refusal.js';

/** Judges the items one after the other; what is wrong with one is its own answer and no other's. */
export function* judgeChunk(chunk: Chunk): Generator<ItemResult> {
  for (const item of openChunk(chunk)) yield item.judge();
}

/** An item that has been read. */
export interface OpenItem {
  readonly id: ItemId;
  /** What judging it is expected to cost, in the unit of `expectedWork`; 0 where there is nothing to judge. */
  readonly work: number;
  readonly judge: () => ItemResult;
  /** What is costly about it and what would be cheaper, in whole sentences. */
  readonly costly: () => readonly string[];
}

/** Reads the items one after the other, each when it is asked for. */
export function* openChunk({ settings, items, progress }: Chunk): Generator<OpenItem> {
  const headers = readHeaders(settings.headings ?? []);
  const begun = progress === undefined ? undefined : new Int32Array(progress);
  for (const item of items) {
    if (begun !== undefined) Atomics.add(begun, 0, 1);
    yield openItem(item, settings, headers);
  }
}

function openItem(item: RawItem, settings: BatchSettings, headers: Headers): OpenItem {
  let id: ItemId = null;
  let body: unknown;
  const failed = (error: unknown): ItemResult => {
    const problem = asProblem(error);
    const result = problemResult(item, id, problem, settings, body);
    if (problem.status < 500) return result;
    return { ...result, failure: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  };
  try {
    if (item.content.form === 'refused') id = namedCar(headers, item.content.cells ?? []);
    body = bodyOf(item);
    const reading = read(item, body, settings, headers);
    ({ id } = reading);
    if ('faults' in reading) throw invalidRequest(reading.faults);
    const { circuit } = reading.subject;
    const work = expectedWork(circuit, { findingsOnly: settings.detail === 'verdict' });
    const judge = (): ItemResult => {
      try {
        return answer(item, reading, settings, body, work);
      } catch (error) {
        return failed(error);
      }
    };
    return { id, work, judge, costly: () => costlyParts(circuit) };
  } catch (error) {
    const result = failed(error);
    return { id, work: 0, judge: () => result, costly: () => [] };
  }
}

/** Undefined where it is not JSON. */
function bodyOf({ content, line }: RawItem): unknown {
  if (content.form !== 'json') return undefined;
  return readJson(content.bytes, { subject: 'item', ...(line === undefined ? {} : { line }) });
}

function read(
  { content, index, line, lastLine }: RawItem,
  body: unknown,
  settings: BatchSettings,
  headers: Headers,
): ItemReading {
  const { defaults } = settings;
  switch (content.form) {
    case 'json':
      return readItem(body, defaults);
    case 'cells':
      return readRecord({ headers, cells: content.cells, line, lastLine }, defaults, index === 0);
    case 'refused':
      throw refusal(content.why, settings.headings !== undefined);
  }
}

function answer(item: RawItem, reading: Readable, settings: BatchSettings, body: unknown, work: number): ItemResult {
  const { index, line } = item;
  const { id, row, subject } = reading;
  const { circuit } = subject;
  try {
    refuseCostly({ pointer: circuit.pointer, work, costly: () => costlyParts(circuit) });
    if (settings.detail === 'summary') {
      const record = judgeForSummary(reading);
      const elements = elementIds(
        body,
        record.findings.flatMap(({ missing = [] }) => missing),
      );
      return { index, id, outcome: outcomeOf[record.verdict], text: '', record, elements };
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
