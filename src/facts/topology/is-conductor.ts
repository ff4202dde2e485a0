import type { Element } from '../../circuit/model.js';

/** Ω. A resistor or meter up to this is a shunt in the current path: common practice, no source; pre-charge and discharge resistors are far above. */
const SHUNT_RESISTANCE = 1;

/** True for what joins two nodes without a resistor once every contact is closed: contacts, fuses, plugs, disconnects and shunts. */
export function isConductor(element: Element): boolean {
  switch (element.kind) {
    case 'contact':
    case 'fuse':
    case 'connector':
    case 'disconnect':
      return true;
    case 'resistor':
    case 'meter':
      return element.resistance.nominal <= SHUNT_RESISTANCE;
    case 'accumulator':
    case 'capacitor':
    case 'load':
    case 'machine':
      return false;
  }
}
