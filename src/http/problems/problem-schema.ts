import { Type } from '@sinclair/typebox';

export const ProblemErrorSchema = Type.Object(
  {
    pointer: Type.Optional(
      Type.String({
        description: 'JSON pointer into the body, as a URI fragment.',
        examples: ['#/circuit/elements/3'],
      }),
    ),
    parameter: Type.Optional(Type.String({ description: 'The query parameter it is about.' })),
    detail: Type.String({ description: 'A plain sentence for a person. Do not parse it.' }),
    code: Type.String({ description: 'Stable; GET /problems explains each.' }),
    accepted: Type.Optional(Type.String({ description: 'What would be accepted.' })),
  },
  { $id: 'ProblemError', additionalProperties: true },
);

/** RFC 9457. Extension members: `code`, `requestId`, `errors`, `accepted`. */
export const ProblemSchema = Type.Object(
  {
    type: Type.String({ format: 'uri-reference', description: 'Leads to a page that explains the problem.' }),
    title: Type.String(),
    status: Type.Integer({ minimum: 400, maximum: 599 }),
    detail: Type.String({ description: 'About this occurrence, for a person. Do not parse it.' }),
    instance: Type.Optional(
      Type.String({ format: 'uri-reference', description: 'The request id as a URN, where it is a UUID.' }),
    ),
    code: Type.String({ description: 'The last part of `type`.' }),
    requestId: Type.String({ description: 'As in the header X-Request-Id.' }),
    errors: Type.Optional(Type.Array(Type.Unsafe(Type.Ref('ProblemError')))),
    accepted: Type.Optional(Type.Array(Type.String())),
  },
  { $id: 'Problem', additionalProperties: true, description: 'A problem document, RFC 9457.' },
);

/** What GET /problems says of one code. */
export const CodeSchema = Type.Object(
  {
    code: Type.String(),
    kind: Type.String({ enum: ['problem', 'fault'], description: '`problem`: a `type`; `fault`: an `errors[].code`.' }),
    status: Type.Optional(Type.Integer({ description: 'Of a problem: the HTTP status it comes with.' })),
    title: Type.String(),
    explanation: Type.String(),
  },
  { $id: 'ProblemCode', additionalProperties: true },
);
