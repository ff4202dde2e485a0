import type { FastifyInstance } from 'fastify';
import { HttpProblem } from '../problems/http-problem.js';
import type { BatchForm } from './open-items.js';
import { CHARSETS } from './open-table.js';

const FORMS: Readonly<Record<string, BatchForm>> = {
  'application/x-ndjson': 'lines',
  'application/jsonl': 'lines',
  'application/json': 'list',
  'text/csv': 'table',
};

/** Media types of a batch's body. */
export const BATCH_BODIES = Object.keys(FORMS);

export interface BatchBody {
  readonly form: BatchForm;
  readonly charset: string;
}

/** Within one plugin: bodies are not read, but handed on as they arrive; what is no batch is refused. */
export function takeBodiesAsStreams(app: FastifyInstance): void {
  app.removeAllContentTypeParsers();
  app.addContentTypeParser(BATCH_BODIES, (_request, payload, done) => done(null, payload));
  app.addContentTypeParser('*', (_request, _payload, done) => done(unsupported('as what it is')));
}

/**
 * What the headers say of the body.
 * @throws HttpProblem (415) where it cannot be read so
 */
export function readBatchBody(type = '', encoding = 'identity'): BatchBody {
  const form = FORMS[type.split(';', 1)[0]?.trim().toLowerCase() ?? ''];
  if (form === undefined) throw unsupported('as what it is');
  if (encoding.toLowerCase() !== 'identity') throw unsupported('uncompressed');
  const charset = /;\s*charset="?([^;"\s]+)/i.exec(type)?.[1]?.toLowerCase() ?? 'utf-8';
  const known = CHARSETS.find((one) => one === charset);
  if (known === undefined || (form !== 'table' && known !== 'utf-8')) {
    throw unsupported(form === 'table' ? `in one of ${CHARSETS.join(', ')}` : 'in UTF-8');
  }
  return { form, charset: known };
}

function unsupported(how: string): HttpProblem {
  return new HttpProblem('unsupported-media-type', `Send the body ${how}: ${BATCH_BODIES.join(', ')}.`, {
    accepted: BATCH_BODIES,
    headers: { 'accept-post': BATCH_BODIES.join(', '), 'accept-encoding': 'identity' },
  });
}
