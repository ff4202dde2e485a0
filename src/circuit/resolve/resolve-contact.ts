import type { Contact } from '../model.js';
import type { ElementInputs } from '../schema/element.js';
import type { ElementFields } from './element-fields.js';
import { stated, statedRange } from './stated.js';
import { withoutUndefined } from './without-undefined.js';

/** A contact in SI. */
export function resolveContact(input: ElementInputs['contact'], base: ElementFields): Contact {
  const { ratings } = input;
  return withoutUndefined({
    ...base,
    kind: input.kind,
    rest: input.rest,
    role: input.role,
    construction: input.construction,
    suppliedBy: input.suppliedBy,
    relay: input.relay,
    auxiliary: input.auxiliary,
    auxiliaryContact: input.auxiliaryContact,
    resistance: statedRange(input.resistance, 'resistance'),
    openResistance: statedRange(input.openResistance, 'resistance'),
    operateTime: stated(input.operateTime, 'time'),
    releaseTime: stated(input.releaseTime, 'time'),
    ratings:
      ratings === undefined
        ? undefined
        : withoutUndefined({
            dcVoltage: stated(ratings.dcVoltage, 'positiveVoltage'),
            makingCurrent: stated(ratings.makingCurrent, 'current'),
            breakingCurrent: stated(ratings.breakingCurrent, 'current'),
            carryingCurrent: stated(ratings.carryingCurrent, 'current'),
          }),
  });
}
