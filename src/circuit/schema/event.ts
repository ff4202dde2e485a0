import { type Static, Type } from '@sinclair/typebox';
import { capacities } from '../capacities.js';
import { STRICT } from './element-base.js';
import { quantity } from './quantity-schemas.js';

export const EventSchema = Type.Object(
  {
    meterResistance: Type.Optional(
      quantity('positiveResistance', 'Of the organiser’s energy meter, at the vehicle side of the isolation relays.'),
    ),
    parameters: Type.Optional(
      Type.Unsafe<Record<string, unknown>>({
        type: 'object',
        additionalProperties: true,
        maxProperties: capacities.eventParameters,
        description: 'Overrides of the ruleset’s parameters, by name; quantities in the forms of every other quantity.',
      }),
    ),
  },
  { $id: 'Event', ...STRICT, description: 'An organiser’s conditions, added to every circuit of a check.' },
);
export type EventInput = Static<typeof EventSchema>;
