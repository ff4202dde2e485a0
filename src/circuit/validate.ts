import type { TSchema } from '@sinclair/typebox';
import { Ajv, type AnySchema, type ValidateFunction } from 'ajv';
import type { Fault } from './fault.js';
import { guardLists } from './guard-lists.js';
import { judgeReading, READING_KEYWORD } from './judge-reading.js';
import { componentSchemas } from './schema/component-schemas.js';
import { readings } from './schema/quantity-schemas.js';
import { schemaFaults } from './schema-faults.js';

export type Validate = (schema: TSchema, value: unknown, pointer: string) => Fault[];

/**
 * A validator that knows this floor's component schemas and `further` ones with an `$id`. Strict and complete: no
 * coercion, no key dropped, every fault reported. Where a schema's values are quantities the reader judges them in
 * place of the published schema, so that a wrong unit is one fault that says what is accepted, not one for each branch.
 */
export function createValidator(further: readonly TSchema[] = []): Validate {
  const ajv = new Ajv({
    allErrors: true,
    verbose: true,
    strict: true,
    strictRequired: false,
    allowUnionTypes: true,
    discriminator: true,
    coerceTypes: false,
  });
  ajv.addKeyword({ keyword: READING_KEYWORD, errors: true, validate: judgeReading });
  for (const schema of [...componentSchemas, ...further]) {
    const id = schema.$id;
    if (id === undefined) throw new Error('a component schema needs an $id');
    const reading = readings.get(id);
    ajv.addSchema(
      reading === undefined ? (guardLists(schema) as AnySchema) : { $id: id, [READING_KEYWORD]: reading },
      id,
    );
  }
  const compiled = new WeakMap<TSchema, ValidateFunction>();
  return (schema, value, pointer) => {
    let check = compiled.get(schema);
    if (check === undefined) {
      check =
        (schema.$id === undefined ? undefined : ajv.getSchema(schema.$id)) ??
        ajv.compile(guardLists(schema) as AnySchema);
      compiled.set(schema, check);
    }
    return check(value) ? [] : schemaFaults(check.errors ?? [], pointer);
  };
}

/**
 * The faults of a value against a schema, with pointers below `pointer`; empty where there is none. The schema may refer
 * to the components of this floor. Compiles each schema once.
 */
export const validate: Validate = createValidator();
