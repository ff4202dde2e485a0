import { Type } from '@sinclair/typebox';
import { elementBase, STRICT } from './element-base.js';
import { name } from './names.js';
import { quantity, toleranced } from './quantity-schemas.js';

export const ConnectorSchema = Type.Object(
  {
    ...elementBase,
    kind: Type.Literal('connector'),
    separates: Type.Optional(name('The container whose leaving parts it; its own container where not stated.')),
    resistance: Type.Optional(toleranced('resistance')),
    ratedVoltage: Type.Optional(quantity('positiveVoltage')),
  },
  { $id: 'Connector', ...STRICT, description: 'A plug that parts when a container leaves the car.' },
);
