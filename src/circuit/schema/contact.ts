import { Type } from '@sinclair/typebox';
import { elementBase, STRICT } from './element-base.js';
import { name } from './names.js';
import { quantity, toleranced } from './quantity-schemas.js';
import { stringEnum } from './string-enum.js';

const ratings = Type.Object(
  {
    dcVoltage: Type.Optional(quantity('positiveVoltage')),
    makingCurrent: Type.Optional(quantity('current')),
    breakingCurrent: Type.Optional(quantity('current')),
    carryingCurrent: Type.Optional(quantity('current')),
  },
  STRICT,
);

export const ContactSchema = Type.Object(
  {
    ...elementBase,
    kind: Type.Literal('contact'),
    rest: stringEnum(['open', 'closed'], { description: 'Its state with nothing energised.' }),
    role: Type.Optional(stringEnum(['isolation-relay', 'precharge-relay', 'discharge-relay', 'other'])),
    construction: Type.Optional(stringEnum(['electromechanical', 'solid-state'])),
    suppliedBy: Type.Optional(
      stringEnum(['shutdown-circuit', 'controller', 'independent'], {
        description: '`controller`: fed by the shutdown circuit and switched by software.',
      }),
    ),
    relay: Type.Optional(name('Contacts of the same relay move together.')),
    auxiliary: Type.Optional(stringEnum(['none', 'plain', 'guided', 'mirror'])),
    auxiliaryContact: Type.Optional(stringEnum(['normally-closed', 'normally-open'])),
    resistance: Type.Optional(toleranced('resistance', 'Closed.')),
    openResistance: Type.Optional(toleranced('resistance', 'Open: leakage or a snubber.')),
    operateTime: Type.Optional(quantity('time', 'From the command to the movement.')),
    releaseTime: Type.Optional(quantity('time', 'From the opening of the shutdown circuit to the movement.')),
    ratings: Type.Optional(ratings),
  },
  { $id: 'Contact', ...STRICT, description: 'One contact of a relay.' },
);
