import type { TSchema } from '@sinclair/typebox';
import { Type } from '@sinclair/typebox';
import { stringEnum } from '../../circuit/index.js';
import { type ProblemCode, problemTable } from '../problems/problem-table.js';

export type Tag = 'Verification' | 'Circuits' | 'Catalogue' | 'Problems' | 'Operations';

interface Description {
  readonly operationId: string;
  readonly tag: Tag;
  readonly summary: string;
  readonly description: string;
  readonly body?: TSchema;
  /** In place of `body`: by media type, where there are several. */
  readonly bodies?: Record<string, TSchema>;
  readonly params?: TSchema;
  /** Names for `?format=`, the default one first. */
  readonly formats?: readonly string[];
  /** In place of `formats`: the whole query. */
  readonly query?: TSchema;
  /** The schema of the answer 200, with what it is in one sentence; or the content by media type. */
  readonly answer: {
    readonly description: string;
    readonly schema?: TSchema;
    readonly content?: Record<string, TSchema>;
  };
  /** Problems beside those that every call of its kind can have. */
  readonly problems?: readonly ProblemCode[];
  /** True where the answer carries an ETag. */
  readonly cached?: boolean;
}

const EVERY_CALL: readonly ProblemCode[] = ['bad-request', 'invalid-query', 'not-acceptable', 'internal-error'];
const WITH_BODY: readonly ProblemCode[] = [
  'malformed-json',
  'empty-body',
  'duplicate-key',
  'forbidden-key',
  'too-deep',
  'body-too-large',
  'unsupported-media-type',
  'invalid-request',
];

/** Further problems of a call that may go to a thread. */
export const LARGE_CALL: readonly ProblemCode[] = ['too-costly', 'call-timeout', 'busy', 'shutting-down'];

/** A route's schema for Fastify and for the OpenAPI document: one place that says what every operation must state. */
export function describe(what: Description) {
  const codes: readonly ProblemCode[] = [
    ...EVERY_CALL,
    ...(what.body === undefined && what.bodies === undefined ? [] : WITH_BODY),
    ...(what.params === undefined ? [] : (['uri-too-long'] as const)),
    ...(what.problems ?? []),
  ];
  const { description, schema } = what.answer;
  const bodies = what.bodies ?? (what.body === undefined ? undefined : { 'application/json': what.body });
  const query = what.query ?? (what.formats === undefined ? undefined : formatQuery(what.formats));
  const content = what.answer.content ?? { 'application/json': schema ?? Type.Unknown() };
  return {
    operationId: what.operationId,
    tags: [what.tag],
    summary: what.summary,
    description: what.description,
    ...(bodies === undefined ? {} : { body: { content: contentSchemas(bodies) } }),
    ...(what.params === undefined ? {} : { params: what.params }),
    ...(query === undefined ? {} : { querystring: query }),
    response: {
      200: {
        description,
        headers: headersOf(what.cached === true),
        content: contentSchemas(content),
      },
      ...(what.cached === true
        ? { 304: { description: 'Unchanged since the ETag that was sent.', type: 'null' } }
        : {}),
      ...problemAnswers(codes),
    },
  };
}

function contentSchemas(content: Readonly<Record<string, TSchema>>) {
  return Object.fromEntries(Object.entries(content).map(([type, schema]) => [type, { schema }]));
}

function formatQuery(formats: readonly string[]) {
  const format = stringEnum(formats, { description: 'The form of the answer; wins over `Accept`.' });
  return Type.Object({ format: Type.Optional(format) }, { additionalProperties: false });
}

function headersOf(cached: boolean) {
  const id = {
    'X-Request-Id': { type: 'string', description: 'The request’s id, the caller’s own where it sent one.' },
  };
  if (!cached) return id;
  return { ...id, ETag: { type: 'string', description: 'Strong; send it back in If-None-Match.' } };
}

/** One answer a status: the titles of its problems, and the problem document. */
function problemAnswers(codes: readonly ProblemCode[]) {
  const statuses = [...new Set(codes.map((code) => problemTable[code].status))].sort((a, b) => a - b);
  return Object.fromEntries(
    statuses.map((status) => {
      const meant = codes.filter((code) => problemTable[code].status === status);
      const description = meant.map((code) => `${problemTable[code].title} (\`${code}\`).`).join(' ');
      return [status, { description, content: { 'application/problem+json': { schema: Type.Ref('Problem') } } }];
    }),
  );
}
