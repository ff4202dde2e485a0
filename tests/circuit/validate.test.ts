import { Type } from '@sinclair/typebox';
import { describe, expect, test } from 'vitest';
import { quantity, validate } from '../../src/circuit/index.js';

describe('validate, on schemas of other floors', () => {
  const union = Type.Object(
    { ruleset: Type.Union([Type.String(), Type.Array(Type.String())], { description: 'an id or a list of ids' }) },
    { additionalProperties: false },
  );

  test.each([
    ['a value of no branch', { ruleset: 7 }, 'unaccepted-form', '#/r/ruleset'],
    ['a value wrong inside one branch', { ruleset: ['a', 7] }, 'unaccepted-form', '#/r/ruleset'],
    ['null', { ruleset: null }, 'wrong-type', '#/r/ruleset'],
    ['a misspelt key', { rulset: 'a' }, 'unknown-field', '#/r/rulset'],
  ])('gives one fault for a union: %s', (_what, value, code, pointer) => {
    expect(validate(union, value, '#/r')).toMatchObject([{ code, pointer }]);
  });

  test('says what a union accepts', () => {
    expect(validate(union, { ruleset: 7 }, '#')).toMatchObject([{ accepted: 'an id or a list of ids' }]);
  });

  test('keeps a fault beside a union', () => {
    const schema = Type.Object({ a: Type.Union([Type.String(), Type.Number()]), b: Type.String() });
    expect(validate(schema, { a: true, b: 1 }, '#')).toMatchObject([
      { pointer: '#/a', code: 'unaccepted-form' },
      { pointer: '#/b', code: 'wrong-type' },
    ]);
  });

  test.each([
    [Type.Number({ minimum: 2 }), 1, 'out-of-bounds', '`x` must be at least 2.'],
    [Type.Number({ maximum: 2 }), 3, 'out-of-bounds', '`x` must be at most 2.'],
    [Type.Number({ exclusiveMinimum: 2 }), 2, 'out-of-bounds', '`x` must be above 2.'],
    [Type.Number({ exclusiveMaximum: 2 }), 2, 'out-of-bounds', '`x` must be below 2.'],
    [Type.Number(), Number.NaN, 'wrong-type', '`x` must be a number.'],
    [Type.Number(), '1', 'wrong-type', '`x` must be a number.'],
    [Type.String({ minLength: 2 }), 'a', 'wrong-length', '`x` must have at least 2 characters, not 1.'],
    [Type.String({ maxLength: 1 }), 'ab', 'wrong-length', '`x` must have at most 1 character, not 2.'],
    [Type.Array(Type.Number(), { minItems: 1 }), [], 'wrong-length', '`x` must have at least 1 item, not 0.'],
    [Type.String({ pattern: '^a' }), 'b', 'unaccepted-form', '`x` is not in an accepted form.'],
    [Type.Literal('a'), 'b', 'not-one-of', '`x` must be `a`, not `b`.'],
    [Type.Unsafe({ type: ['number', 'null'] }), 'b', 'wrong-type', '`x` must be a number or null.'],
    [quantity('time'), '5 V', 'wrong-unit', '`5 V` is a voltage; a time is wanted.'],
  ])('%j of %j', (schema, value, code, detail) => {
    expect(validate(schema, value, '#/x')).toMatchObject([{ pointer: '#/x', code, detail }]);
  });

  test('names a place in a list by the list', () => {
    expect(validate(Type.Array(Type.String()), ['a', null], '#/names')).toMatchObject([
      { pointer: '#/names/1', detail: '`names[1]` must not be null.' },
    ]);
  });

  test('names no place at the root', () => {
    expect(validate(Type.String(), 1, '#')).toMatchObject([{ pointer: '#', detail: 'The value must be text.' }]);
  });
});
