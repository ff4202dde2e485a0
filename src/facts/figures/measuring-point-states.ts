import type { Meter, ResolvedCircuit } from '../../circuit/model.js';
import { compileCircuit, nominalValues } from '../../transient/compiled-circuit.js';
import { runTimeline } from '../../transient/timeline.js';
import type { Conditions } from '../conditions.js';
import type { MeasuringPointState, SeparationState, Topology } from '../facts.js';
import { accumulatorChain, openCircuitVoltage } from './open-circuit.js';

/** Ω of a common hand-held voltmeter. Common practice, no source. */
const VOLTMETER = 1e7;

/**
 * What a voltmeter at the measuring points reads of each capacitor of the car, just after release, in every separation state.
 * Nominal values. Capacitors at or below the limit are left out: nothing has to be read of them.
 */
export function measuringPointStates(
  circuit: ResolvedCircuit,
  topology: Topology,
  conditions: Conditions,
  share: ReadonlyMap<string, number>,
  states: readonly SeparationState[],
): MeasuringPointState[] | undefined {
  const points = circuit.measuringPoints;
  if (points === undefined) return undefined;
  const taken = new Set(circuit.elements.map(({ id }) => id));
  let id = 'voltmeter';
  while (taken.has(id)) id = `${id}-`;
  const range = { min: VOLTMETER, nominal: VOLTMETER, max: VOLTMETER, toleranceStated: true };
  const meter: Meter = {
    id,
    kind: 'meter',
    nodes: [points.positive, points.negative],
    zone: 'vehicle',
    container: 'main',
    pointer: circuit.pointer,
    resistance: range,
  };
  const compiled = compileCircuit({ ...circuit, elements: [...circuit.elements, meter] });
  const values = nominalValues(compiled);
  const total = openCircuitVoltage(accumulatorChain(compiled, topology), values);
  const found: MeasuringPointState[] = [];
  for (const state of states) {
    const open = new Set(state.open);
    const closed = compiled.elements
      .filter(({ source }) => source.kind === 'contact' || source.kind === 'connector' || source.kind === 'disconnect')
      .map((element) => element.id)
      .filter((each) => !open.has(each));
    const timeline = runTimeline({
      compiled,
      values,
      steps: [],
      until: 0,
      startsClosed: new Set(closed),
      startsOpen: open,
      absent: new Set(state.gone),
      startVoltages: new Map([...share].map(([capacitor, ratio]) => [capacitor, ratio * total])),
      openCircuitVoltage: total,
      phase: 'shutdown',
      withoutLoads: true,
    });
    const solution = timeline.segments.at(-1)?.solution;
    const read = (nodes: readonly [string, string]): number | null => {
      const signal = solution?.voltage(compiled.nodes.get(nodes[0]) ?? -1, compiled.nodes.get(nodes[1]) ?? -1);
      return signal === undefined || typeof signal === 'string' ? null : Math.abs(signal.at(0));
    };
    const reading = read([points.positive, points.negative]);
    for (const capacitor of topology.vehicleCapacitors) {
      const nodes = compiled.byId.get(capacitor)?.source.nodes;
      if (nodes === undefined || state.gone.includes(capacitor)) continue;
      const voltage = read(nodes) ?? 0;
      if (voltage <= conditions.dischargeVoltage) continue;
      found.push({
        state: state.id,
        capacitor,
        capacitorVoltage: voltage,
        reading,
        error: Math.abs((reading ?? 0) - voltage) / voltage,
      });
    }
  }
  return found;
}
