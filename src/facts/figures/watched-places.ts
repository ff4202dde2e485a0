import type { ResolvedCircuit } from '../../circuit/model.js';
import type { FallVoltage, SeparationState } from '../facts.js';
import type { FallRun, Watched } from './fall-run.js';
import type { FallSetting } from './fall-setting.js';

/** A voltage to be watched in a fall, by name and by place. */
export interface WatchedPlace extends Pick<FallVoltage, 'id' | 'kind' | 'nodes'> {
  readonly place: Watched;
}

/**
 * The car's capacitors that are still there, and between the plug pins of each container that has left whatever has a voltage.
 */
export function watchedPlaces(setting: FallSetting, state: SeparationState, run: FallRun): WatchedPlace[] {
  return [...capacitors(setting, state), ...plugPins(setting, state, run)];
}

function capacitors({ compiled, topology }: FallSetting, state: SeparationState): WatchedPlace[] {
  return topology.vehicleCapacitors.flatMap((id): WatchedPlace[] => {
    const element = compiled.byId.get(id);
    if (element === undefined || state.gone.includes(id)) return [];
    return [
      {
        id,
        kind: 'capacitor',
        nodes: element.source.nodes,
        place: { capacitor: compiled.capacitors.indexOf(element.index) },
      },
    ];
  });
}

function plugPins({ compiled, topology, circuit }: FallSetting, state: SeparationState, run: FallRun): WatchedPlace[] {
  if (state.scenario !== 'container-removed' && state.scenario !== 'all-separated') return [];
  const found: WatchedPlace[] = [];
  for (const container of topology.containers) {
    if (state.container !== undefined && state.container !== container) continue;
    const pins = circuit.elements.flatMap((element) =>
      element.kind === 'connector' && element.separates === container
        ? [containerPin(circuit, element.nodes, container)]
        : [],
    );
    pins.forEach((first, k) => {
      for (const second of pins.slice(k + 1)) {
        const place = { a: compiled.nodes.get(first) ?? -1, b: compiled.nodes.get(second) ?? -1 };
        if (first === second || !run.hasVoltage(place)) continue;
        found.push({ id: `${first}–${second}`, kind: 'plug-pins', nodes: [first, second], place });
      }
    });
  }
  return found;
}

/** The plug's pin on the side of its container: the node that an element of that container touches. */
function containerPin(circuit: ResolvedCircuit, nodes: readonly [string, string], container: string): string {
  const touches = (node: string): boolean =>
    circuit.elements.some(
      (element) =>
        element.kind !== 'connector' &&
        element.zone === 'container' &&
        element.container === container &&
        element.nodes.includes(node),
    );
  return touches(nodes[0]) || !touches(nodes[1]) ? nodes[0] : nodes[1];
}
