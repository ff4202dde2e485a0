import type { TSchema } from '@sinclair/typebox';
import { CircuitSchema } from './circuit.js';
import { ControlSchema, PrechargeControlSchema } from './control.js';
import { ElementSchema, elementSchemas } from './element.js';
import { EventSchema } from './event.js';
import { NodePairSchema } from './names.js';
import { quantitySchemas } from './quantity-schemas.js';
import { SequenceSchema, StepSchema } from './step.js';

/** Every schema of this floor that has an `$id`: the components of the OpenAPI document. */
export const componentSchemas: readonly TSchema[] = [
  CircuitSchema,
  ElementSchema,
  ...Object.values(elementSchemas),
  ControlSchema,
  PrechargeControlSchema,
  SequenceSchema,
  StepSchema,
  EventSchema,
  NodePairSchema,
  ...quantitySchemas,
];
