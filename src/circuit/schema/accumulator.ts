import { Type } from '@sinclair/typebox';
import { elementBase, STRICT } from './element-base.js';
import { toleranced } from './quantity-schemas.js';

export const AccumulatorSchema = Type.Object(
  {
    ...elementBase,
    kind: Type.Literal('accumulator'),
    voltage: toleranced('positiveVoltage', 'Open-circuit voltage, empty to full.'),
    resistance: Type.Optional(toleranced('resistance', 'Internal resistance.')),
  },
  { $id: 'Accumulator', ...STRICT, description: 'A pack or a part of one; nodes are [positive, negative].' },
);
