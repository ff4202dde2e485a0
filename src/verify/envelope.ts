import { type TObject, type TSchema, Type } from '@sinclair/typebox';

const made = new WeakMap<TSchema, TSchema>();

/**
 * The outermost level of a request's schema: which fields there are and which are required, any value in each. The
 * readers of the fields judge the values, so that their faults are told once, in one voice.
 */
export function envelopeOf(schema: TObject): TSchema {
  let envelope = made.get(schema);
  if (envelope === undefined) {
    const fields = Object.keys(schema.properties).map((field) => [field, {}]);
    envelope = Type.Unsafe({
      type: 'object',
      properties: Object.fromEntries(fields) as object,
      required: schema.required ?? [],
      additionalProperties: false,
    });
    made.set(schema, envelope);
  }
  return envelope;
}
