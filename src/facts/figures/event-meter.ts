import type { Meter, ResolvedCircuit } from '../../circuit/model.js';
import type { Topology } from '../facts.js';

export const EVENT_METER_ID = 'event-meter';

/**
 * The circuit as the rise sees it: with the organiser's energy meter at the vehicle side of the isolation relays.
 *
 * Only a declared meter with role `energy-meter` stands for it; where the two differ the lower resistance loads the rise.
 * @param meterResistance Ω; undefined: the circuit as it is
 */
export function withEventMeter(
  circuit: ResolvedCircuit,
  topology: Topology,
  meterResistance: number | undefined,
): ResolvedCircuit {
  if (meterResistance === undefined) return circuit;
  const range = { min: meterResistance, nominal: meterResistance, max: meterResistance, toleranceStated: true };
  const declared = circuit.elements.some((element) => element.kind === 'meter' && element.role === 'energy-meter');
  if (declared) {
    return {
      ...circuit,
      elements: circuit.elements.map((element) =>
        element.kind === 'meter' && element.role === 'energy-meter' && element.resistance.nominal > meterResistance
          ? { ...element, resistance: range }
          : element,
      ),
    };
  }
  const nodes = meterNodes(circuit, topology);
  if (nodes === undefined) return circuit;
  const taken = new Set(circuit.elements.map((element) => element.id));
  let id = EVENT_METER_ID;
  while (taken.has(id)) id = `${id}-`;
  const meter: Meter = {
    id,
    kind: 'meter',
    nodes,
    zone: 'vehicle',
    container: 'main',
    pointer: '#/event/meterResistance',
    resistance: range,
    role: 'energy-meter',
  };
  return { ...circuit, elements: [...circuit.elements, meter].sort((a, b) => (a.id < b.id ? -1 : 1)) };
}

/** The car's side of an isolation relay of each outermost pole, else the link. */
function meterNodes(circuit: ResolvedCircuit, topology: Topology): readonly [string, string] | undefined {
  const relays = circuit.elements.filter((element) => topology.isolationRelays.includes(element.id));
  const outside = relays.flatMap((relay) => relay.nodes.filter((node) => topology.zoneOfNode(node) === 'vehicle'));
  const poles = new Set(topology.poles.map((pole) => pole.node));
  const candidates = [...new Set(outside)].filter((node) => !poles.has(node));
  const [first, second] = candidates;
  if (first !== undefined && second !== undefined && candidates.length === 2) return [first, second];
  return circuit.link;
}
