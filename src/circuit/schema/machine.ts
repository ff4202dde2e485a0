import { Type } from '@sinclair/typebox';
import { elementBase, STRICT } from './element-base.js';
import { quantity, toleranced } from './quantity-schemas.js';

export const MachineSchema = Type.Object(
  {
    ...elementBase,
    kind: Type.Literal('machine'),
    backEmf: toleranced('voltageMagnitude', 'Peak line-to-line voltage at shutdown.'),
    decay: Type.Optional(quantity('time', 'Time constant of the coast-down.')),
    resistance: Type.Optional(toleranced('resistance')),
  },
  { $id: 'Machine', ...STRICT, description: 'A spinning motor that feeds the link through its diodes.' },
);
