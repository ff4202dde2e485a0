import type { Element } from '../model.js';
import type { ElementInput } from '../schema/element.js';
import { PHASES } from '../schema/load.js';
import { elementFields } from './element-fields.js';
import { resolveContact } from './resolve-contact.js';
import { resolveResistor } from './resolve-resistor.js';
import { stated, statedRange } from './stated.js';
import { withoutUndefined } from './without-undefined.js';

/** The element in SI with the defaults that the contract fixes; `input` has been found without fault. */
export function resolveElement(input: ElementInput, pointer: string): Element {
  const base = elementFields(input, pointer);
  switch (input.kind) {
    case 'accumulator':
      return withoutUndefined({
        ...base,
        kind: input.kind,
        voltage: statedRange(input.voltage, 'positiveVoltage'),
        resistance: statedRange(input.resistance, 'resistance'),
      });
    case 'fuse':
      return withoutUndefined({
        ...base,
        kind: input.kind,
        resistance: statedRange(input.resistance, 'resistance'),
        ratedCurrent: stated(input.ratedCurrent, 'current'),
        ratedDcVoltage: stated(input.ratedDcVoltage, 'positiveVoltage'),
        breakingCurrent: stated(input.breakingCurrent, 'current'),
      });
    case 'contact':
      return resolveContact(input, base);
    case 'connector':
      return withoutUndefined({
        ...base,
        kind: input.kind,
        separates: input.separates ?? base.container,
        resistance: statedRange(input.resistance, 'resistance'),
        ratedVoltage: stated(input.ratedVoltage, 'positiveVoltage'),
      });
    case 'disconnect':
      return withoutUndefined({
        ...base,
        kind: input.kind,
        resistance: statedRange(input.resistance, 'resistance'),
        ratedVoltage: stated(input.ratedVoltage, 'positiveVoltage'),
      });
    case 'resistor':
      return resolveResistor(input, base);
    case 'capacitor':
      return withoutUndefined({
        ...base,
        kind: input.kind,
        capacitance: statedRange(input.capacitance, 'capacitance'),
        esr: statedRange(input.esr, 'resistance'),
        ratedVoltage: stated(input.ratedVoltage, 'positiveVoltage'),
        initialVoltage: stated(input.initialVoltage ?? 0, 'voltage'),
      });
    case 'meter':
      return withoutUndefined({
        ...base,
        kind: input.kind,
        resistance: statedRange(input.resistance, 'positiveResistance'),
        role: input.role,
      });
    case 'load':
      return withoutUndefined({
        ...base,
        kind: input.kind,
        resistance: statedRange(input.resistance, 'positiveResistance'),
        current: statedRange(input.current, 'current'),
        power: statedRange(input.power, 'power'),
        startsAbove: stated(input.startsAbove ?? 0, 'voltageMagnitude'),
        stopsBelow: stated(input.stopsBelow ?? 0, 'voltageMagnitude'),
        activeIn: PHASES.filter((phase) => input.activeIn?.includes(phase) ?? true),
      });
    case 'machine':
      return withoutUndefined({
        ...base,
        kind: input.kind,
        backEmf: statedRange(input.backEmf, 'voltageMagnitude'),
        decay: stated(input.decay, 'time'),
        resistance: statedRange(input.resistance, 'resistance'),
      });
  }
}
