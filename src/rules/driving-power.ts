import { conductsAt } from '../circuit/conducts-at.js';
import type { ResolvedCircuit, Resistor } from '../circuit/model.js';
import type { Facts, Topology } from '../facts/facts.js';
import type { Figure } from '../facts/figure.js';
import { shareOfVoltage } from '../limits/points/share-of-voltage.js';

/**
 * W in a resistor while driving: the link at the accumulator's voltage, the pre-charge relays open, every other
 * shutdown-supplied contact energised.
 *
 * The share of the link's voltage that it takes is nominal; the resistor's own range and the accumulator's are in the figure.
 */
export function drivingPower(facts: Facts, resistor: Resistor): Figure {
  const { openCircuitVoltage: volts } = facts;
  const share = shareOfLink(facts, resistor);
  const power = (voltage: number | null, ohms: number) =>
    voltage === null || ohms <= 0 ? null : (voltage * share) ** 2 / ohms;
  const { min, nominal, max, toleranceStated } = resistor.resistance;
  const assumed = toleranceStated ? 0 : facts.conditions.assumedTolerance.resistor;
  return {
    nominal: power(volts.nominal, nominal),
    min: power(volts.min, max * (1 + assumed)),
    max: power(volts.max, min * (1 - assumed)),
    stated: { min: power(volts.stated.min, max), max: power(volts.stated.max, min) },
    bare: toleranceStated ? volts.bare : [...volts.bare, `${resistor.pointer}/resistance`],
    bound: 'proved',
    at: { min: {}, max: {} },
  };
}

function shareOfLink({ circuit, topology }: Facts, { nodes }: Resistor): number {
  if (circuit.link === undefined) return 0;
  return shareOfVoltage(circuit, conductsAt({ open: openWhileDriving(circuit, topology) }), circuit.link, nodes);
}

/**
 * Energised, a contact stands opposite to its rest, the pre-charge relays excepted, which have opened again. A contact with a
 * supply of its own is taken at rest: nothing is known to move it.
 */
function openWhileDriving(circuit: ResolvedCircuit, { isolationRelays, prechargeRelays }: Topology): readonly string[] {
  const contacts = circuit.elements.filter((element) => element.kind === 'contact');
  const opened = contacts.filter(({ id, rest, suppliedBy }) => {
    if (prechargeRelays.includes(id)) return true;
    if (isolationRelays.includes(id)) return false;
    return suppliedBy === 'independent' ? rest === 'open' : rest === 'closed';
  });
  return opened.map(({ id }) => id);
}
