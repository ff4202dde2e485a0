import type { FastifyReply, FastifyRequest } from 'fastify';
import type { CsvForm } from '../../render/csv/csv-cell.js';
import type { ParameterFault, Query } from '../../verify/cells/parameter-fault.js';
import { CELL_FORMATS } from './cell-formats.js';
import { queryProblem } from '../problems/query-problem.js';
import { type CommonQuery, readCommonQuery, refuseLongAddress } from './cell-query.js';
import { csvFormOf } from './csv-form-of.js';
import { sendComputed } from './send-computed.js';

/** What is asked of a cell or a table, and how its answer is written. */
export interface CellCall<Question extends object, Answer extends object> {
  /** The question that the rest of a query asks, and every fault that spoils the answer. */
  readonly read: (
    rest: Query,
    common: CommonQuery,
  ) => { readonly question?: Question | undefined; readonly faults: readonly ParameterFault[] };
  /** All of the question that the answer depends on, in SI, however it was written. */
  readonly identity: (question: Question) => object;
  readonly answer: (question: Question) => Answer;
  readonly csv: (answer: Answer, form: CsvForm) => string;
  readonly text: (answer: Answer, form: CsvForm) => string;
}

/**
 * Answers a cell or a table in the form that was asked for.
 * @throws HttpProblem with every fault of the query, or for an address that is too long
 */
export function answerCell<Question extends object, Answer extends object>(
  request: FastifyRequest,
  reply: FastifyReply,
  call: CellCall<Question, Answer>,
): FastifyReply {
  refuseLongAddress(request.url);
  const common = readCommonQuery(request.query);
  const { question, faults } = call.read(common.rest, common);
  const all = [...common.faults, ...faults];
  if (question === undefined || all.length > 0) throw queryProblem(all);
  const { decimal } = common;
  return sendComputed(request, reply, { ...call.identity(question), decimal }, () => {
    const answer = call.answer(question);
    if (request.answerType === CELL_FORMATS.json) return answer;
    const write = request.answerType === CELL_FORMATS.csv ? call.csv : call.text;
    return write(answer, csvFormOf(decimal));
  });
}
