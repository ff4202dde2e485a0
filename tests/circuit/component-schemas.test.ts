import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  componentSchemas,
  createValidator,
  EventSchema,
  readCircuit,
  stringEnum,
  validate,
} from '../../src/circuit/index.js';
import { arbitraryCircuit } from './arbitrary-circuit.js';
import { faultCases, spoilt } from './fault-cases.js';
import './seed.js';

/** A plain validator of the published schemas, as a client would use them: without this project's readers. */
const published = new Ajv2020({ strict: true, strictRequired: false, allowUnionTypes: true, discriminator: true });
for (const schema of componentSchemas) published.addSchema(JSON.parse(JSON.stringify(schema)) as object, schema.$id);

describe('the published schemas', () => {
  test.each(componentSchemas.map((schema) => [schema.$id ?? '', schema] as const))('%s compiles', (id) => {
    expect(id).toMatch(/^[A-Z][A-Za-z]+$/);
    expect(published.getSchema(id)).toBeTypeOf('function');
  });

  test('have names of their own', () => {
    expect(new Set(componentSchemas.map((schema) => schema.$id)).size).toBe(componentSchemas.length);
  });

  test.each(
    componentSchemas
      .filter((schema) => Array.isArray(schema['examples']))
      .map((schema) => [schema.$id ?? '', schema] as const),
  )('%s accepts its examples', (_id, schema) => {
    for (const example of schema['examples'] as unknown[]) expect(validate(schema, example, '#')).toEqual([]);
  });

  test('accept what reading accepts', () => {
    const check = published.getSchema('Circuit');
    fc.assert(
      fc.property(arbitraryCircuit, (input) => {
        expect(readCircuit(input, '#')).toHaveProperty('circuit');
        expect(check?.(input), JSON.stringify(check?.errors)).toBe(true);
      }),
    );
  });

  test('accept nothing with a fault of form', () => {
    const check = published.getSchema('Circuit');
    const ofForm = ['wrong-type', 'missing-field', 'unknown-field', 'not-one-of', 'wrong-length', 'repeated-item'];
    for (const faultCase of faultCases) {
      if (!faultCase.faults.some(([, code]) => ofForm.includes(code))) continue;
      expect(check?.(spoilt(faultCase)), faultCase.what).toBe(false);
    }
  });

  test('are strict: every object but the event’s parameters refuses unknown fields', () => {
    const open: string[] = [];
    const visit = (schema: unknown, path: string): void => {
      if (typeof schema !== 'object' || schema === null) return;
      const { additionalProperties } = schema as { additionalProperties?: unknown };
      // A union is as strict as its kinds, which are visited themselves.
      if ('properties' in schema && additionalProperties !== false && !('oneOf' in schema)) open.push(path);
      for (const [key, value] of Object.entries(schema)) visit(value, `${path}/${key}`);
    };
    for (const schema of componentSchemas) visit(schema, schema.$id ?? '');
    expect(open).toEqual([]);
    expect(validate(EventSchema, { meter: 1 }, '#/event')).toMatchObject([
      { pointer: '#/event/meter', code: 'unknown-field' },
    ]);
  });
});

describe('createValidator', () => {
  test('knows further components and refuses those without a name', () => {
    const colour = stringEnum(['red', 'blue'], { $id: 'Colour' });
    const own = createValidator([colour]);
    expect(own(colour, 'red', '#/colour')).toEqual([]);
    expect(own(colour, 'rd', '#/colour')).toEqual([
      {
        pointer: '#/colour',
        code: 'not-one-of',
        detail: '`colour` must be `red` or `blue`, not `rd`; did you mean `red`?',
        accepted: '`red` or `blue`',
      },
    ]);
    expect(() => createValidator([stringEnum(['a'])])).toThrow('$id');
  });
});
