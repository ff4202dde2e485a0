import type { ErrorObject } from 'ajv';
import { suggestionEnd } from './closest.js';
import type { Fault } from './fault.js';
import { isRecord } from './is-record.js';
import { makeFault } from './make-fault.js';
import { childPointer, pointerKeys } from './pointer.js';
import { quoted, quotedList } from './quoted.js';
import { PRINTABLE } from './schema/names.js';

/** One of Ajv's errors at `place`, as faults in plain words. */
export function schemaFault(error: ErrorObject, place: string): readonly Fault[] {
  const what = subject(place);
  const { params } = error;
  switch (error.keyword) {
    case 'reading':
      return (params['faults'] as readonly Fault[]).map((fault) => ({ ...fault, pointer: place + fault.pointer }));
    case 'type': {
      const accepted = typeNames(params['type']);
      const detail = `${what} must ${error.data === null ? 'not be null' : `be ${accepted}`}.`;
      return [makeFault(place, 'wrong-type', detail, accepted)];
    }
    case 'required': {
      const key = String(params['missingProperty']);
      return [makeFault(childPointer(place, key), 'missing-field', `${quoted(key)} is missing.`)];
    }
    case 'discriminator':
      return [discriminatorFault(error, place)];
    case 'const':
    case 'enum':
      return [
        wordFault(
          place,
          what,
          error.data,
          error.keyword === 'const' ? [params['allowedValue']] : params['allowedValues'],
        ),
      ];
    case 'minimum':
    case 'maximum':
    case 'exclusiveMinimum':
    case 'exclusiveMaximum':
      return [makeFault(place, 'out-of-bounds', `${what} must be ${comparison(error)}.`)];
    case 'minLength':
    case 'maxLength':
    case 'minItems':
    case 'maxItems':
    case 'minProperties':
    case 'maxProperties':
      return [makeFault(place, 'wrong-length', `${what} must have ${lengthClause(error)}.`)];
    case 'uniqueItems': {
      const index = Math.max(Number(params['i']), Number(params['j']));
      const item = Array.isArray(error.data) ? (error.data as unknown[])[index] : undefined;
      return [makeFault(childPointer(place, index), 'repeated-item', `${quoted(item)} stands in the list twice.`)];
    }
    case 'pattern':
      if (params['pattern'] === PRINTABLE) {
        return [makeFault(place, 'unaccepted-form', `${what} must not hold line breaks or other control characters.`)];
      }
      return [formFault(error, place, what)];
    default:
      return [formFault(error, place, what)];
  }
}

/** The name of the place in a sentence: the field, or the field's list and position in it. */
function subject(place: string): string {
  const keys = pointerKeys(place);
  const last = keys.pop();
  if (last === undefined) return 'The value';
  const list = keys.pop();
  return /^\d+$/.test(last) && list !== undefined ? quoted(`${list}[${last}]`) : quoted(last);
}

const TYPE_NAMES: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  integer: 'a whole number',
  boolean: 'true or false',
  object: 'an object',
  array: 'a list',
  null: 'null',
};

function typeNames(types: unknown): string {
  const names: unknown[] = Array.isArray(types) ? (types as unknown[]) : [types];
  return names.map((name) => TYPE_NAMES[String(name)] ?? String(name)).join(' or ');
}

function wordFault(place: string, what: string, given: unknown, allowed: unknown): Fault {
  const words = (Array.isArray(allowed) ? (allowed as unknown[]) : []).map(String);
  const accepted = quotedList(words);
  if (given === null) return makeFault(place, 'wrong-type', `${what} must not be null.`, accepted);
  // Where there is one word only, a suggestion would repeat it.
  const end = typeof given === 'string' && words.length > 1 ? suggestionEnd(given, words) : '.';
  return makeFault(place, 'not-one-of', `${what} must be ${accepted}, not ${quoted(given)}${end}`, accepted);
}

/** An object of several kinds whose kind is missing, not text, or not known. */
function discriminatorFault(error: ErrorObject, place: string): Fault {
  const tag = String(error.params['tag']);
  const kinds = kindNames(error);
  const at = childPointer(place, tag);
  if (!isRecord(error.data) || !Object.hasOwn(error.data, tag)) {
    return makeFault(at, 'missing-field', `${quoted(tag)} is missing.`, quotedList(kinds));
  }
  const given = error.data[tag];
  if (typeof given !== 'string') {
    const detail = `${quoted(tag)} must ${given === null ? 'not be null' : 'be text'}.`;
    return makeFault(at, 'wrong-type', detail, quotedList(kinds));
  }
  const accepted = quotedList(kinds);
  const suggestion = suggestionEnd(given, kinds);
  const end = suggestion === '.' ? `: it must be ${accepted}.` : suggestion;
  return makeFault(at, 'not-one-of', `${quoted(given)} is not a known ${tag}${end}`, accepted);
}

/** The components of a union are named after its kinds. */
function kindNames(error: ErrorObject): string[] {
  const branches: unknown = error.parentSchema?.['oneOf'];
  if (!Array.isArray(branches)) return [];
  return (branches as unknown[]).flatMap((branch) => {
    const id = isRecord(branch) ? branch['$ref'] : undefined;
    return typeof id === 'string' ? [id.charAt(0).toLowerCase() + id.slice(1)] : [];
  });
}

const COMPARISONS: Readonly<Record<string, string>> = {
  '>=': 'at least',
  '<=': 'at most',
  '>': 'above',
  '<': 'below',
};

function comparison(error: ErrorObject): string {
  const sign = String(error.params['comparison']);
  return `${COMPARISONS[sign] ?? sign} ${error.params['limit']}`;
}

function lengthClause(error: ErrorObject): string {
  const limit = Number(error.params['limit']);
  const bound = error.keyword.startsWith('min') ? 'at least' : 'at most';
  const noun = error.keyword.endsWith('Length') ? 'character' : error.keyword.endsWith('Items') ? 'item' : 'field';
  return `${bound} ${limit} ${noun}${limit === 1 ? '' : 's'}, not ${lengthOf(error.data)}`;
}

/** As Ajv counts it: a text by its code points. */
function lengthOf(data: unknown): number {
  if (typeof data === 'string') return Array.from(data).length;
  if (Array.isArray(data)) return data.length;
  return isRecord(data) ? Object.keys(data).length : 0;
}

function formFault(error: ErrorObject, place: string, what: string): Fault {
  if (error.data === null) return makeFault(place, 'wrong-type', `${what} must not be null.`);
  const description: unknown = error.parentSchema?.['description'];
  const accepted = typeof description === 'string' ? description : undefined;
  return makeFault(place, 'unaccepted-form', `${what} is not in an accepted form.`, accepted);
}
