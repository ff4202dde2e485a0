import { Type } from '@sinclair/typebox';
import { elementBase, STRICT } from './element-base.js';
import { quantity, toleranced } from './quantity-schemas.js';

export const FuseSchema = Type.Object(
  {
    ...elementBase,
    kind: Type.Literal('fuse'),
    resistance: Type.Optional(toleranced('resistance')),
    ratedCurrent: Type.Optional(quantity('current')),
    ratedDcVoltage: Type.Optional(quantity('positiveVoltage')),
    breakingCurrent: Type.Optional(quantity('current', 'The largest current it can interrupt.')),
  },
  { $id: 'Fuse', ...STRICT },
);
