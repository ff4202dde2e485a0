import type { ResolvedCircuit } from '../../circuit/model.js';
import type { FallVoltage, SeparationState } from '../facts.js';
import type { FallRun, Watched } from './fall-run.js';
import type { FallSetting } from './fall-setting.js';

type NodePair = { readonly a: number; readonly b: number };

/** A voltage to be watched in a fall, by name and by place. */
export interface WatchedPlace extends Pick<FallVoltage, 'id' | 'kind' | 'nodes'> {
  readonly place: Watched;
}

/**
 * The car's capacitors that are still there, the link itself where it stands across several of them in series, and between the
 * plug pins of each container that has left whatever has a voltage.
 * @param isShown whether two nodes show nothing that some capacitor does not
 */
export function watchedPlaces(
  setting: FallSetting,
  state: SeparationState,
  run: FallRun,
  isShown: (place: NodePair) => boolean,
): WatchedPlace[] {
  return [...watchedCapacitors(setting, state), ...acrossBank(setting, isShown), ...plugPins(setting, state, run)];
}

export function watchedCapacitors({ compiled, topology }: FallSetting, state: SeparationState): WatchedPlace[] {
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

/** Each of a bank may be below the limit, and the link across all of them above it. */
function acrossBank(
  { compiled, circuit, topology }: FallSetting,
  isShown: (place: NodePair) => boolean,
): WatchedPlace[] {
  const { link } = circuit;
  if (link === undefined) return [];
  const isLink = (id: string): boolean => {
    const nodes = compiled.byId.get(id)?.source.nodes;
    return nodes?.includes(link[0]) === true && nodes.includes(link[1]);
  };
  const place = { a: compiled.nodes.get(link[0]) ?? -1, b: compiled.nodes.get(link[1]) ?? -1 };
  if (topology.vehicleCapacitors.some(isLink) || isShown(place)) return [];
  return [{ id: `${link[0]}–${link[1]}`, kind: 'link', nodes: link, place }];
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
