import { Type } from '@sinclair/typebox';
import { elementBase, STRICT } from './element-base.js';
import { quantity, toleranced } from './quantity-schemas.js';

export const CapacitorSchema = Type.Object(
  {
    ...elementBase,
    kind: Type.Literal('capacitor'),
    capacitance: toleranced('capacitance'),
    esr: Type.Optional(toleranced('resistance', 'Equivalent series resistance.')),
    ratedVoltage: Type.Optional(quantity('positiveVoltage')),
    initialVoltage: Type.Optional(
      quantity('voltage', 'From the first node to the second at t = 0; 0 where not stated.'),
    ),
  },
  { $id: 'Capacitor', ...STRICT },
);
