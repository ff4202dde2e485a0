import { Type } from '@sinclair/typebox';
import { elementBase, STRICT } from './element-base.js';
import { quantity, toleranced } from './quantity-schemas.js';
import { stringEnum } from './string-enum.js';

export const PHASES = ['precharge', 'drive', 'shutdown'] as const;

export const LoadSchema = Type.Object(
  {
    ...elementBase,
    kind: Type.Literal('load'),
    resistance: Type.Optional(toleranced('positiveResistance')),
    current: Type.Optional(toleranced('current')),
    power: Type.Optional(toleranced('power')),
    startsAbove: Type.Optional(quantity('voltageMagnitude', 'Wakes up above this voltage; 0 where not stated.')),
    stopsBelow: Type.Optional(
      quantity(
        'voltageMagnitude',
        'Falls asleep below this voltage; at most `startsAbove`. 0 where not stated: once awake it stays awake at every voltage above 0 V.',
      ),
    ),
    activeIn: Type.Optional(
      Type.Array(stringEnum(PHASES), { uniqueItems: true, minItems: 1, description: 'All phases where not stated.' }),
    ),
  },
  {
    $id: 'Load',
    ...STRICT,
    description:
      'A consumer, by exactly one of `resistance`, `current` and `power`. A `current` load draws current · min(1, v / 1 V), so that it never drives its node negative; a `power` load draws power / v from 1 V on, and below that it acts as the resistance (1 V)² / power. Neither draws anything at a negative voltage.',
  },
);
