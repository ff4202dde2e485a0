import type { Values } from './compiled-circuit.js';
import { generalModes } from './general-modes.js';
import type { ReducedNetwork } from './reduced-network.js';
import type { SolvedIsland } from './solved-island.js';
import { starModes } from './state-modes.js';
import type { PlannedCapacitor, PlannedIsland } from './planned.js';

/**
 * The modes of one island with capacitors.
 * @param network its purely resistive nodes taken out
 * @param voltageOf V across a capacitor's merged nodes at the start
 */
export function solveIsland(
  network: ReducedNetwork,
  island: PlannedIsland,
  values: Values,
  voltageOf: (capacitor: PlannedCapacitor) => number,
): SolvedIsland {
  const { common } = island;
  if (common === undefined) return withoutCommonNode(network, island, values, voltageOf);
  const nodes = island.others;
  const n = nodes.length;
  const farads = new Float64Array(n);
  const start = new Float64Array(n);
  for (const capacitor of island.capacitors) {
    const k = nodes.indexOf(capacitor.ma === common ? capacitor.mb : capacitor.ma);
    farads[k] = (farads[k] as number) + (values[capacitor.element.primary] as number);
    start[k] = capacitor.ma === common ? -voltageOf(capacitor) : voltageOf(capacitor);
  }
  const { channels } = network;
  const injected = new Float64Array(n * channels);
  for (let c = 0; c < channels; c += 1) {
    for (let k = 0; k < n; k += 1)
      injected[c * n + k] = network.injection(nodes[k] as number, c) / (farads[k] as number);
  }
  const rest = network.rest([...nodes, common]);
  const modes = starModes(rest, [...nodes.keys()], farads);
  return { nodes, modes, injected, start, dependent: [], error: 0 };
}

function withoutCommonNode(
  network: ReducedNetwork,
  { capacitors, reference }: PlannedIsland,
  values: Values,
  voltageOf: (capacitor: PlannedCapacitor) => number,
): SolvedIsland {
  const nodes = [...new Set(capacitors.flatMap(({ ma, mb }) => [ma, mb]))].sort((a, b) => a - b);
  const place = new Map(nodes.map((node, k) => [node, k]));
  const at = (node: number): number => place.get(node) as number;
  const own = (k: number): number => nodes[k] as number;
  const solved = generalModes(
    network.rest(nodes),
    at(reference),
    capacitors.map((capacitor) => ({
      a: at(capacitor.ma),
      b: at(capacitor.mb),
      c: values[capacitor.element.primary] as number,
      voltage: voltageOf(capacitor),
    })),
  );
  return {
    ...solved,
    nodes: solved.nodes.map(own),
    dependent: solved.dependent.map((each) => ({ ...each, node: own(each.node), carries: each.carries.map(own) })),
  };
}
