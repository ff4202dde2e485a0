import { type Static, Type } from '@sinclair/typebox';
import { capacities } from '../capacities.js';
import { ControlSchema } from './control.js';
import { ElementSchema } from './element.js';
import { STRICT } from './element-base.js';
import { idList, label, name, nodePair } from './names.js';
import { quantity } from './quantity-schemas.js';
import { ref } from './ref.js';

const measuringPoints = Type.Object({ positive: name(), negative: name() }, STRICT);

const indicator = Type.Object(
  {
    watches: Type.Optional(idList('Contacts whose state lights it.', capacities.elements)),
    senses: Type.Optional(Type.Array(nodePair(), { maxItems: capacities.sensePairs })),
  },
  STRICT,
);

const containerIndicator = Type.Object({ senses: Type.Optional(nodePair()) }, STRICT);

export const CircuitSchema = Type.Object(
  {
    title: Type.Optional(label('What people call the car.')),
    elements: Type.Array(ref(ElementSchema), { minItems: 1, maxItems: capacities.elements }),
    link: Type.Optional(
      nodePair(
        'The intermediate circuit’s two nodes; where not stated those of the largest capacitor in the vehicle zone (equal ones: the smallest id).',
      ),
    ),
    measuringPoints: Type.Optional(measuringPoints),
    chassis: Type.Optional(name('The node that is the car’s chassis.')),
    operatingCurrent: Type.Optional(quantity('current', 'The largest continuous traction current.')),
    control: Type.Optional(ref(ControlSchema)),
    indicator: Type.Optional(indicator),
    containerIndicator: Type.Optional(containerIndicator),
    containerIndicators: Type.Optional(
      Type.Array(containerIndicator, {
        maxItems: capacities.sensePairs,
        description:
          'Where there are several accumulator containers: the indicator of each, beside `containerIndicator`. An empty list without it states that no container has one.',
      }),
    ),
    ambient: Type.Optional(Type.Object({ max: Type.Optional(quantity('temperature')) }, STRICT)),
  },
  { $id: 'Circuit', ...STRICT, description: 'A pre-charge and discharge circuit as built.' },
);
export type CircuitInput = Static<typeof CircuitSchema>;
