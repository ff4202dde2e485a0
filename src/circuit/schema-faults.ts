import type { ErrorObject } from 'ajv';
import { capacities } from './capacities.js';
import { closest } from './closest.js';
import type { Fault } from './fault.js';
import { isRecord } from './is-record.js';
import { makeFault } from './make-fault.js';
import { childPointer } from './pointer.js';
import { quoted, quotedList } from './quoted.js';
import { schemaFault } from './schema-fault.js';

/** Suggestions cost time; beyond this many unknown fields nobody reads them. */
const MOST_SUGGESTIONS = 100;

/** Far more than are answered, so that a body full of faults costs no more than one of a page of them. */
const MOST_ERRORS = 4 * capacities.faults;

/**
 * The errors that Ajv found (with `allErrors` and `verbose`), as faults in plain words: one for each mistake of the
 * caller, at the key where it stands.
 */
export function schemaFaults(errors: readonly ErrorObject[], pointer: string): Fault[] {
  const shown = withoutBranches(errors).slice(0, MOST_ERRORS);
  /** Where a required field would stand that was given under a misspelt name. */
  const misspelt = new Set<string>();
  const faults: Fault[] = [];
  for (const [count, error] of shown.filter(isUnknownField).entries()) {
    const place = placeOf(error, pointer);
    const key = String(error.params['additionalProperty']);
    const known = knownFields(error);
    const free = known.filter((field) => !isRecord(error.data) || !Object.hasOwn(error.data, field));
    const near = count < MOST_SUGGESTIONS ? closest(key, free) : undefined;
    if (near !== undefined) misspelt.add(childPointer(place, near));
    const end = near === undefined ? '.' : `; did you mean \`${near}\`?`;
    const accepted = known.length === 0 ? undefined : quotedList(known);
    faults.push(
      makeFault(childPointer(place, key), 'unknown-field', `${quoted(key)} is not a known field${end}`, accepted),
    );
  }
  for (const error of shown) {
    if (isUnknownField(error)) continue;
    for (const fault of schemaFault(error, placeOf(error, pointer))) {
      if (fault.code !== 'missing-field' || !misspelt.has(fault.pointer)) faults.push(fault);
    }
  }
  return faults;
}

function isUnknownField(error: ErrorObject): boolean {
  return error.keyword === 'additionalProperties';
}

function knownFields(error: ErrorObject): string[] {
  const properties: unknown = error.parentSchema?.['properties'];
  return isRecord(properties) ? Object.keys(properties) : [];
}

/** Ajv's path is a JSON pointer in plain text; ours is a URI fragment. */
function placeOf(error: ErrorObject, pointer: string): string {
  const keys = error.instancePath
    .split('/')
    .slice(1)
    .map((key) => key.replaceAll('~1', '/').replaceAll('~0', '~'));
  return childPointer(pointer, ...keys);
}

/** Leaves out what single branches of a union found (the union's own error stands for them), and Ajv's notes on `then`. */
function withoutBranches(errors: readonly ErrorObject[]): readonly ErrorObject[] {
  const unions = new Map<string, ErrorObject[]>();
  for (const error of errors) {
    if (error.keyword !== 'anyOf' && error.keyword !== 'oneOf') continue;
    const here = unions.get(error.instancePath);
    if (here === undefined) unions.set(error.instancePath, [error]);
    else here.push(error);
  }
  return errors.filter((error) => {
    if (error.keyword === 'if') return false;
    const { instancePath } = error;
    // A keyword beside the union speaks for itself.
    if (unions.get(instancePath)?.some((union) => union.parentSchema !== error.parentSchema) === true) return false;
    for (let end = instancePath.lastIndexOf('/'); end >= 0; end = instancePath.lastIndexOf('/', end - 1)) {
      if (unions.has(instancePath.slice(0, end))) return false;
      if (end === 0) break;
    }
    return true;
  });
}
