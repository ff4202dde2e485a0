import { httpCapacities } from '../http-capacities.js';
import { HttpProblem } from '../problems/http-problem.js';
import { scanJson } from './scan-json.js';

/**
 * A request body as a value. Refused with a problem that names the line and column: bytes that are not UTF-8, a text
 * that is not JSON (RFC 8259), equal keys in one object (RFC 8785 section 3.1 wants none), keys that attack prototypes,
 * nesting beyond the published depth. A byte order mark is skipped, as some editors write one.
 * @throws HttpProblem
 */
export function readJson(bytes: Uint8Array): unknown {
  const text = decode(bytes);
  const fault = scanJson(text, httpCapacities.jsonDepth);
  if (fault === undefined) return JSON.parse(text) as unknown;
  const { line, column } = position(text, fault.offset);
  const detail = `The body ${fault.detail}, at line ${line}, column ${column}.`;
  throw new HttpProblem(fault.code, detail, {
    errors: [{ pointer: asFragment(fault.path), detail, code: fault.code }],
  });
}

function decode(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new HttpProblem('malformed-json', 'The body is not UTF-8.');
  }
}

function position(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset);
  const lastBreak = before.lastIndexOf('\n');
  return { line: before.split('\n').length, column: offset - lastBreak };
}

/** RFC 6901 section 6. */
function asFragment(path: readonly (string | number)[]): string {
  const tokens = path.map((step) => encodeURIComponent(String(step).replaceAll('~', '~0').replaceAll('/', '~1')));
  return `#${tokens.map((token) => `/${token}`).join('')}`;
}
