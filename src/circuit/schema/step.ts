import { type Static, Type } from '@sinclair/typebox';
import { capacities } from '../capacities.js';
import { STRICT } from './element-base.js';
import { idList } from './names.js';
import { quantity } from './quantity-schemas.js';
import { ref } from './ref.js';

const when = Type.Object(
  {
    linkRatio: quantity('fraction', 'Of the link’s voltage to the open-circuit voltage.'),
    falling: Type.Optional(
      Type.Boolean({ description: 'True: at or below the ratio; false or not stated: at or above.' }),
    ),
  },
  STRICT,
);

export const StepSchema = Type.Object(
  {
    at: Type.Optional(quantity('time', 'Since the start of the record.')),
    after: Type.Optional(quantity('time', 'Since the step before.')),
    when: Type.Optional(when),
    close: Type.Optional(idList('Contacts, connectors and disconnects that close.', capacities.contactsPerStep)),
    open: Type.Optional(idList('Contacts, connectors and disconnects that open.', capacities.contactsPerStep)),
    release: Type.Optional(
      Type.Boolean({ description: 'True: the shutdown circuit opens, and what it supplies returns to rest.' }),
    ),
  },
  {
    $id: 'Step',
    ...STRICT,
    description:
      'Timed by exactly one of `at`, `after` and `when`. Within a step: `release`, then `close`, then `open`.',
  },
);

export const SequenceSchema = Type.Array(ref(StepSchema), {
  $id: 'Sequence',
  maxItems: capacities.steps,
  description: 'Steps in the order in which they run. Only what they name moves.',
});
export type SequenceInput = Static<typeof SequenceSchema>;
