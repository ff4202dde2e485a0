import { type Static, Type } from '@sinclair/typebox';
import { AccumulatorSchema } from './accumulator.js';
import { CapacitorSchema } from './capacitor.js';
import { ConnectorSchema } from './connector.js';
import { ContactSchema } from './contact.js';
import { DisconnectSchema } from './disconnect.js';
import { elementBase } from './element-base.js';
import { FuseSchema } from './fuse.js';
import { LoadSchema } from './load.js';
import { MachineSchema } from './machine.js';
import { MeterSchema } from './meter.js';
import { ref } from './ref.js';
import { ResistorSchema } from './resistor.js';

export const elementSchemas = {
  accumulator: AccumulatorSchema,
  fuse: FuseSchema,
  contact: ContactSchema,
  connector: ConnectorSchema,
  disconnect: DisconnectSchema,
  resistor: ResistorSchema,
  capacitor: CapacitorSchema,
  meter: MeterSchema,
  load: LoadSchema,
  machine: MachineSchema,
};

/** An element as a request gives it, of one kind. */
export type ElementInputs = { [K in keyof typeof elementSchemas]: Static<(typeof elementSchemas)[K]> };
export type ElementInput = ElementInputs[keyof ElementInputs];

const shared = Type.Object(elementBase);

/**
 * The fields that every element has are asked for here too, so that one whose kind is not known has its other faults named.
 * The `discriminator` lets Ajv check the one branch that `kind` names. It has no `mapping`, which Ajv refuses; the names
 * of the components are the kinds with a capital letter.
 */
export const ElementSchema = Type.Unsafe<ElementInput>({
  $id: 'Element',
  type: 'object',
  properties: shared.properties,
  required: ['kind', ...shared.required],
  discriminator: { propertyName: 'kind' },
  oneOf: Object.values(elementSchemas).map((schema) => ref(schema)),
});
