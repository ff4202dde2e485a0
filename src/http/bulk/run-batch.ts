import { Readable } from 'node:stream';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import type { CsvForm } from '../../render/csv/csv-cell.js';
import { summaryCsv } from '../../render/summary/summary-csv.js';
import { summaryMarkdown } from '../../render/summary/summary-markdown.js';
import { EventSummariser } from '../../verify/summary/event-summary.js';
import type { EventSummary } from '../../verify/summary/event-summary-schema.js';
import type { BatchSettings, ItemResult } from '../pool/chunk.js';
import { batchAnswer } from './batch-answer.js';
import type { BatchBody } from './batch-body.js';
import { BATCH_FORMATS, type BatchQuery } from './batch-query.js';
import { ChunkPace } from './chunk-pace.js';
import { openItems, type OpenedItems } from './open-items.js';
import { resultsOf } from './results-of.js';
import { allowSlowArrival } from './slow-arrivals.js';

interface Batch {
  readonly app: FastifyInstance;
  readonly request: FastifyRequest;
  readonly reply: FastifyReply;
  readonly items: Readable;
  readonly body: BatchBody;
  readonly query: BatchQuery;
  /** Media type of the answer. */
  readonly type: string;
}

/** Bytes of answers that wait for a caller who first sends all and then reads; the reports of some hundred cars. */
const WAITING = 8 * 1024 * 1024;

/**
 * Takes a batch in, works on it and answers it. The work ends with the connection.
 * @throws HttpProblem where the batch is not taken in, or its beginning cannot be read
 */
export async function runBatch({ app, request, reply, items, body, query, type }: Batch): Promise<FastifyReply> {
  const admission = app.batchDesk.enter();
  const endSlowness = allowSlowArrival(request.raw.socket);
  const finish = (): void => {
    endSlowness();
    // What of a refused body is still to come is read and forgotten: to cut it off could lose the answer on its way.
    reply.raw.off('close', admission.abort);
    admission.leave();
  };
  reply.raw.once('close', admission.abort);
  admission.signal.addEventListener('abort', () => items.destroy(), { once: true });
  const pace = new ChunkPace();
  try {
    const opened = await openItems(items, body.form, body.charset, pace);
    const settings = settingsOf(query, type, opened, request.id);
    const results = resultsOf(opened.chunks, settings, {
      pool: app.batchPool,
      signal: admission.signal,
      pace,
      log: request.log,
    });
    if (query.detail === 'summary') {
      const summary = await summarised(results);
      finish();
      return await sendSummary(reply, summary, type, settings.csv);
    }
    const marked = opened.table?.marked === true;
    const text = Readable.from(batchAnswer(results, settings, { type, marked }), {
      objectMode: false,
      highWaterMark: WAITING,
    });
    text.once('close', finish);
    return await reply.type(mediaType(type)).send(text);
  } catch (error) {
    finish();
    throw error;
  }
}

function settingsOf(query: BatchQuery, type: string, { table }: OpenedItems, requestId: string): BatchSettings {
  const csv: CsvForm = { separator: table?.separator ?? ',', decimal: query.defaults.decimal };
  return {
    detail: query.detail,
    defaults: query.defaults,
    output: type === BATCH_FORMATS.csv ? 'csv' : 'json',
    // Decimals behind a comma and cells between commas can only be told apart by quotes.
    csv: csv.decimal === 'comma' && table === undefined ? { ...csv, separator: ';' } : csv,
    ...(table === undefined ? {} : { headings: table.headings }),
    requestId,
  };
}

async function summarised(results: AsyncIterable<readonly ItemResult[]>): Promise<EventSummary> {
  const summariser = new EventSummariser();
  for await (const some of results) {
    for (const { index, id, record, problem, elements = {} } of some) {
      if (record !== undefined) summariser.add({ index, id, elements }, record);
      else if (problem !== undefined) summariser.addProblem({ index, id, elements }, problem.code, problem.places);
    }
  }
  return summariser.summary();
}

function sendSummary(reply: FastifyReply, summary: EventSummary, type: string, csv: CsvForm): FastifyReply {
  reply.type(mediaType(type));
  if (type === BATCH_FORMATS.csv) return reply.send(summaryCsv(summary, csv));
  return type === BATCH_FORMATS.markdown ? reply.send(summaryMarkdown(summary)) : reply.send(summary);
}

/** RFC 4180 section 3 for the parameters of a table. */
function mediaType(type: string): string {
  if (type === BATCH_FORMATS.csv) return `${type}; charset=utf-8; header=present`;
  return `${type}; charset=utf-8`;
}
