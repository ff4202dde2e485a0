import { Type } from '@sinclair/typebox';
import { elementBase, STRICT } from './element-base.js';
import { quantity, toleranced } from './quantity-schemas.js';

export const DisconnectSchema = Type.Object(
  {
    ...elementBase,
    kind: Type.Literal('disconnect'),
    resistance: Type.Optional(toleranced('resistance')),
    ratedVoltage: Type.Optional(quantity('positiveVoltage')),
  },
  { $id: 'Disconnect', ...STRICT, description: 'The high-voltage disconnect.' },
);
