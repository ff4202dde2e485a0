import { type Static, Type } from '@sinclair/typebox';
import { stringEnum } from '../../circuit/schema/string-enum.js';

const open = { additionalProperties: true };

export const StockUseSchema = Type.Object(
  {
    element: Type.String({ description: 'The resistor in whose place the parts go.' }),
    use: stringEnum(['single', 'series', 'parallel']),
    parts: Type.Array(Type.Integer({ minimum: 0 }), {
      minItems: 1,
      maxItems: 2,
      description: 'Places in `stock`, counted from 0.',
    }),
    resistance: Type.Number({ description: 'Nominal, of all parts together. Ω.' }),
    power: Type.Number({
      description: 'W that all parts together stand: at this power the first of them reaches its own rating.',
    }),
    margin: Type.Number({
      description:
        'The smallest relative margin to any limit on resistance or power that is not open; 1 where none is near.',
    }),
    open: Type.Array(Type.String(), {
      description:
        'Limits, and rules that no limit stands for, that stay undetermined for want of a field; empty: all are kept.',
    }),
    overload: Type.Optional(
      Type.Number({
        description:
          'Only where it is open what a part stands for a short time: how many times the power that it stands permanently it would get. Compare it with the part’s data sheet.',
      }),
    ),
  },
  {
    $id: 'StockUse',
    ...open,
    description:
      'Parts at hand that can stand in the place of a resistor: with them built in no rule in force is broken that is not broken without them.',
  },
);
export type StockUse = Static<typeof StockUseSchema>;

export const StockNoteSchema = Type.Object(
  { element: Type.String(), note: Type.String() },
  { $id: 'StockNote', ...open, description: 'Why nothing at hand can stand in the place of a resistor.' },
);
export type StockNote = Static<typeof StockNoteSchema>;
