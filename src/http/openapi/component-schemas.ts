import type { TSchema } from '@sinclair/typebox';
import { componentSchemas as circuitSchemas } from '../../circuit/index.js';
import { LimitRecordSchema, WindowSchema } from '../../limits/limit-record.js';
import { ClauseSchema, FindingSchema } from '../../rules/finding.js';
import { answerSchemas } from '../../verify/answer-schemas.js';
import { batchSchemas } from '../../verify/batch/batch-schemas.js';
import { cellSchemas } from '../../verify/cells/cell-schemas.js';
import { compareSchemas } from '../../verify/compare/compare-schemas.js';
import { requestSchemas } from '../../verify/requests.js';
import { rowSchemas } from '../../verify/rows/row-schema.js';
import { summarySchemas } from '../../verify/summary/event-summary-schema.js';
import { transientsSchemas } from '../../verify/transients-schema.js';
import { CodeSchema, ProblemErrorSchema, ProblemSchema } from '../problems/problem-schema.js';
import { catalogueSchemas } from './catalogue-schemas.js';
import { referencesIn } from './references-in.js';

/** What routes refer to, and what that is made of as far as it stands above the circuit. */
const schemas: readonly TSchema[] = [
  ...requestSchemas,
  ...transientsSchemas,
  ...rowSchemas,
  ...batchSchemas,
  ...compareSchemas,
  ...cellSchemas,
  ...summarySchemas,
  ...answerSchemas,
  ClauseSchema,
  FindingSchema,
  LimitRecordSchema,
  WindowSchema,
  ...catalogueSchemas,
  ProblemErrorSchema,
  ProblemSchema,
  CodeSchema,
];

/** The circuit's parts that any of it leads to: quantities that no field holds yet are left out. */
function referred(from: readonly TSchema[]): readonly TSchema[] {
  const names = new Set<string>();
  const visit = (schema: TSchema): void => {
    for (const name of referencesIn(schema)) {
      const part = circuitSchemas.find(({ $id }) => $id === name);
      if (part === undefined || names.has(name)) continue;
      names.add(name);
      visit(part);
    }
  };
  from.forEach(visit);
  return circuitSchemas.filter(({ $id }) => $id !== undefined && names.has($id));
}

/** Every schema with a name: the components of the OpenAPI document and the subjects of GET /v1/schemas/{name}. */
export const componentSchemas: readonly TSchema[] = [...referred(schemas), ...schemas];
