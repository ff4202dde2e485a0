import { httpCapacities } from '../http-capacities.js';
import { HttpProblem } from '../problems/http-problem.js';
import { scanJson } from './scan-json.js';

/** Of what a text is, for one who looks for a place in it. */
export interface TextPlace {
  /** What the text is to its sender. */
  readonly subject: 'body' | 'item';
  /** The line of the body on which it begins, from 1; not known: lines are counted from the text's own beginning, and it says so. */
  readonly line?: number;
}

const UTF_8 = new TextDecoder('utf-8', { fatal: true });
const WHOLE_BODY: TextPlace = { subject: 'body', line: 1 };

/**
 * A request body, or one item of it, as a value. Refused with a problem that names the line and column: bytes that are not UTF-8, a text
 * that is not JSON (RFC 8259), equal keys in one object (RFC 8785 section 3.1 wants none), keys that attack prototypes,
 * nesting beyond the published depth. A byte order mark is skipped, as some editors write one.
 * @throws HttpProblem
 */
export function readJson(bytes: Uint8Array, place = WHOLE_BODY): unknown {
  const text = decode(bytes, place);
  const fault = scanJson(text, httpCapacities.jsonDepth);
  if (fault === undefined) return JSON.parse(text) as unknown;
  const detail = `The ${place.subject} ${fault.detail}, at ${position(text, fault.offset, place)}.`;
  throw new HttpProblem(fault.code, detail, {
    errors: [{ pointer: asFragment(fault.path), detail, code: fault.code }],
  });
}

function decode(bytes: Uint8Array, { subject }: TextPlace): string {
  try {
    return UTF_8.decode(bytes);
  } catch {
    throw new HttpProblem('malformed-json', `The ${subject} is not UTF-8.`);
  }
}

function position(text: string, offset: number, { subject, line }: TextPlace): string {
  // What stands between a list's comma and its next item is not the item's.
  const start = line === undefined ? Math.min(offset, text.length - text.trimStart().length) : 0;
  const lines = text.slice(start, offset).split('\n');
  const column = (lines.at(-1) ?? '').length + 1;
  const first = line ?? 1;
  return `line ${first + lines.length - 1}, column ${column}${line === undefined ? ` of the ${subject}` : ''}`;
}

/** RFC 6901 section 6. */
function asFragment(path: readonly (string | number)[]): string {
  const tokens = path.map((step) => encodeURIComponent(String(step).replaceAll('~', '~0').replaceAll('/', '~1')));
  return `#${tokens.map((token) => `/${token}`).join('')}`;
}
