import { type Static, Type } from '@sinclair/typebox';
import { quantity, toleranced } from '../../circuit/schema/quantity-schemas.js';

/** Largest number of parts of one kind that is told apart from any other. */
const MOST_OF_A_KIND = 1000;

export const StockPartSchema = Type.Object(
  {
    resistance: toleranced(
      'positiveResistance',
      'Where no tolerance is stated, that of the part in whose place it is put counts.',
    ),
    power: quantity('power', 'What it stands permanently, mounted as it will be.'),
    voltage: Type.Optional(quantity('positiveVoltage', 'Its voltage rating; not stated: what needs it stays open.')),
    overload: Type.Optional(
      Type.Object(
        {
          factor: quantity('positiveRatio', 'Times `power`.'),
          duration: quantity('time', 'For so long.'),
        },
        {
          additionalProperties: false,
          description:
            'What it stands for a short time; not stated: no more than permanently is sure, and the rest stays open.',
        },
      ),
    ),
    count: Type.Optional(
      Type.Integer({ minimum: 1, maximum: MOST_OF_A_KIND, description: 'How many there are; 1 where not stated.' }),
    ),
  },
  { $id: 'StockPart', additionalProperties: false, description: 'A resistor at hand.' },
);
export type StockPartInput = Static<typeof StockPartSchema>;
