import type { Detail } from '../../verify/batch/judge-item.js';
import { HttpProblem } from '../problems/http-problem.js';
import { BATCH_FORMATS } from './batch-query.js';
import type { BatchForm } from './open-items.js';

type MediaType = (typeof BATCH_FORMATS)[keyof typeof BATCH_FORMATS];

const OF_BODY: Readonly<Record<BatchForm, MediaType>> = {
  lines: BATCH_FORMATS.ndjson,
  list: BATCH_FORMATS.json,
  table: BATCH_FORMATS.csv,
};

interface Wish {
  /** As negotiated for a caller that has a wish. */
  readonly answerType: string;
  readonly format: unknown;
  readonly accept: string | undefined;
}

/**
 * The media type of the answer. A caller without a wish gets the form it sent, or a summary as JSON.
 * @throws HttpProblem where the wish is for a form that this detail does not have
 */
export function answerTypeOf({ answerType, format, accept }: Wish, form: BatchForm, detail: Detail): MediaType {
  const wished = format !== undefined || (accept !== undefined && accept.trim() !== '*/*');
  const type = wished
    ? Object.values(BATCH_FORMATS).find((one) => one === answerType)
    : detail === 'summary'
      ? BATCH_FORMATS.json
      : OF_BODY[form];
  const unfit = detail === 'summary' ? BATCH_FORMATS.ndjson : BATCH_FORMATS.markdown;
  if (type !== undefined && type !== unfit) return type;
  const accepted = Object.values(BATCH_FORMATS).filter((one) => one !== unfit);
  const sentence = `With detail=${detail} this call answers in ${accepted.join(', ')} only.`;
  if (format === undefined) throw new HttpProblem('not-acceptable', sentence, { accepted });
  throw new HttpProblem('invalid-query', sentence, {
    errors: [{ parameter: 'format', detail: sentence, code: 'unknown-format' }],
  });
}
