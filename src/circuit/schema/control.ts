import { Type } from '@sinclair/typebox';
import { capacities } from '../capacities.js';
import { STRICT } from './element-base.js';
import { nodePair } from './names.js';
import { quantity } from './quantity-schemas.js';
import { ref } from './ref.js';
import { SequenceSchema } from './step.js';
import { stringEnum } from './string-enum.js';

export const PrechargeControlSchema = Type.Object(
  {
    method: Type.Optional(stringEnum(['voltage-comparison', 'timer'])),
    threshold: Type.Optional(quantity('fraction', 'Ratio to the open-circuit voltage at which the last relay closes.')),
    comparisonError: Type.Optional(quantity('fraction', 'Absolute error of the comparison, in that ratio.')),
    reference: Type.Optional(stringEnum(['measured', 'fixed'])),
    fixedVoltage: Type.Optional(quantity('positiveVoltage')),
    accumulatorSense: Type.Optional(nodePair('Where the accumulator’s voltage is read.')),
    linkSense: Type.Optional(nodePair('Where the link’s voltage is read.')),
    delay: Type.Optional(quantity('time', 'Of a timer.')),
    timeout: Type.Optional(quantity('time', 'After which the attempt is given up.')),
    attempts: Type.Optional(
      Type.Integer({ minimum: 1, maximum: capacities.attempts, description: 'That follow one another by themselves.' }),
    ),
    retryInterval: Type.Optional(
      quantity('time', 'From the start of one attempt to the start of the next; shorter than the timeout: at once.'),
    ),
    minimumRestartInterval: Type.Optional(
      quantity('time', 'From one start to the next that a driver may ask for; shorter than a rise: at once.'),
    ),
  },
  { $id: 'PrechargeControl', ...STRICT, description: 'How the car decides that the link is charged.' },
);

export const ControlSchema = Type.Object(
  {
    sequence: Type.Optional(
      ref(SequenceSchema, { description: 'The team’s real order, where it differs from the default.' }),
    ),
    precharge: Type.Optional(ref(PrechargeControlSchema)),
  },
  { $id: 'Control', ...STRICT },
);
