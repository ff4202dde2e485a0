import { Type } from '@sinclair/typebox';
import { elementBase, STRICT } from './element-base.js';
import { toleranced } from './quantity-schemas.js';
import { stringEnum } from './string-enum.js';

export const MeterSchema = Type.Object(
  {
    ...elementBase,
    kind: Type.Literal('meter'),
    resistance: toleranced('positiveResistance', 'Between its two voltage inputs.'),
    role: Type.Optional(stringEnum(['energy-meter', 'voltage-sense', 'insulation-monitor', 'indicator', 'other'])),
  },
  { $id: 'Meter', ...STRICT, description: 'An instrument that loads the voltage it reads.' },
);
