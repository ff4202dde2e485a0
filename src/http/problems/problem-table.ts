/** One kind of problem: its code never changes meaning and is never reused. */
export interface ProblemRow {
  readonly status: number;
  /** The same for every occurrence (RFC 9457 section 3.1.3). */
  readonly title: string;
  /** What it means and what a client can do, for the page that the `type` leads to. */
  readonly explanation: string;
}

/** Every problem this service answers with. A test compares it with what is really emitted, both ways. */
export const problemTable = {
  'malformed-json': {
    status: 400,
    title: 'The body is not JSON',
    explanation:
      'The body does not follow RFC 8259, or is not UTF-8. `errors` says at which line and column reading stopped.',
  },
  'empty-body': {
    status: 400,
    title: 'The body is missing',
    explanation: 'This call needs a JSON object as its body. The document at /openapi.json says which fields it has.',
  },
  'malformed-csv': {
    status: 400,
    title: 'A table cannot be read',
    explanation:
      'A quote is opened and never closed, or the first line has none of the columns of a flat row. Cells with separators, quotes or line breaks in them are quoted (RFC 4180); GET /v1/rows lists the columns.',
  },
  'duplicate-key': {
    status: 400,
    title: 'A key stands twice in one object',
    explanation:
      'Programs differ in which of two equal keys they believe, so a body that holds one is refused. Remove one of them.',
  },
  'forbidden-key': {
    status: 400,
    title: 'A key is not accepted anywhere',
    explanation:
      'The keys `__proto__`, `constructor` and `prototype` are never part of a request; they serve attacks on programs.',
  },
  'too-deep': {
    status: 400,
    title: 'The body is nested too deeply',
    explanation: 'No request needs objects or lists nested this deeply. GET /v1/capacities has the largest depth.',
  },
  'bad-request': {
    status: 400,
    title: 'The request cannot be understood',
    explanation: 'The request line, its address or its headers do not follow HTTP. `detail` says more.',
  },
  'invalid-query': {
    status: 400,
    title: 'The query has faults',
    explanation: 'A query parameter is unknown, repeated or has a value that is not accepted. `errors` names each.',
  },
  'not-found': {
    status: 404,
    title: 'There is nothing at this address',
    explanation: 'No resource has this address. GET /openapi.json lists all addresses, GET /docs shows them.',
  },
  'method-not-allowed': {
    status: 405,
    title: 'The address does not know this method',
    explanation: 'The address exists; the `Allow` header lists the methods it answers to.',
  },
  'not-acceptable': {
    status: 406,
    title: 'None of the wanted media types can be given',
    explanation: 'The `Accept` header leaves out every form this call can answer in. `accepted` lists them.',
  },
  'request-timeout': {
    status: 408,
    title: 'The request took too long to arrive',
    explanation: 'The whole request has to arrive within half a minute. Send it again.',
  },
  'body-too-large': {
    status: 413,
    title: 'The body is too large',
    explanation: 'GET /v1/capacities has the largest body in bytes. A circuit within the other bounds stays far below.',
  },
  'line-too-long': {
    status: 413,
    title: 'A line of the batch is too long',
    explanation:
      'The line was skipped; all others are answered. GET /v1/capacities has the largest line in bytes, and for a table the largest record in characters.',
  },
  'uri-too-long': {
    status: 414,
    title: 'The address is too long',
    explanation:
      'A part of the address is longer than any resource here is named, or the address of a cell or table is longer than GET /v1/capacities says.',
  },
  'unsupported-media-type': {
    status: 415,
    title: 'The body has another media type than this call reads',
    explanation: 'Send `Content-Type: application/json`, in UTF-8 and without a content encoding.',
  },
  'invalid-request': {
    status: 422,
    title: 'The request has faults',
    explanation:
      'The body is JSON but not a request this call can answer. `errors` lists every fault with a JSON pointer, not only the first.',
  },
  'too-costly': {
    status: 422,
    title: 'The request asks for too much work',
    explanation:
      'The work is counted, or estimated from counts, before it begins. `errors` has the figure, the largest allowed, what is costly and what would be cheaper; GET /v1/capacities publishes the bounds.',
  },
  'item-timeout': {
    status: 422,
    title: 'An item of the batch took too long',
    explanation:
      'Its computation was ended after the published time; all others are answered. Post the circuit by itself, or with fewer parts whose values are wide apart.',
  },
  // Not 503: that asks for the same again, which would take as long again. It is the request that has to change.
  'call-timeout': {
    status: 422,
    title: 'The computation took too long',
    explanation:
      'It was ended after the published time (GET /v1/capacities), and nothing was computed. The same request would take as long again: `detail` says what is costly in it and what would be cheaper.',
  },
  'headers-too-large': {
    status: 431,
    title: 'The headers are too large',
    explanation: 'The address and headers together exceed 16 KiB. Large input belongs in the body of a POST.',
  },
  'internal-error': {
    status: 500,
    title: 'The service has made a mistake',
    explanation:
      'This is a fault of the service, never of the request. Report it with the request and the `requestId`; no result was computed.',
  },
  busy: {
    status: 503,
    title: 'Too much work at once',
    explanation:
      'This instance works on as many batches, or as many large calls, as it takes at once, or no thread was free for this call within the published time (GET /v1/capacities); nothing of this request was begun. Try again after the seconds in `Retry-After`.',
  },
  'shutting-down': {
    status: 503,
    title: 'This instance is about to stop',
    explanation: 'It finishes what it has begun and takes no new work. Another instance, or a later try, will answer.',
  },
} as const satisfies Record<string, ProblemRow>;

export type ProblemCode = keyof typeof problemTable;

export const problemCodes = Object.keys(problemTable) as readonly ProblemCode[];

/** The row of that code, or undefined for a code that is none. */
export function problemRow(code: string): ProblemRow | undefined {
  return Object.hasOwn(problemTable, code) ? problemTable[code as ProblemCode] : undefined;
}
