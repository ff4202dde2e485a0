import type { Arrangement } from './arrangements.js';

/** Two nodes, positive first. */
export type Pair = readonly [string, string];

/** One container of a drawing: its name, the endings of its names, its terminals and what it is plugged to. */
export interface ContainerWires {
  readonly container: string;
  /** `''` of a single container, else `-1`, `-2` …: closes the names of its elements and inner nodes. */
  readonly suffix: string;
  /** Where its plugs lead. */
  readonly outside: Pair;
}

/** The nodes of a drawing between containers and link. */
export interface Wires {
  readonly containers: readonly ContainerWires[];
  /** Terminals of the accumulator on the car's side of the outermost plugs, ahead of the disconnect. */
  readonly ahead: Pair;
  /** The link. */
  readonly behind: Pair;
  /** The disconnect's own nodes; absent: there is none. */
  readonly disconnect?: Pair;
}

const LINK: Pair = ['lp', 'ln'];

/** The nodes outside the containers, as the disconnect's place parts them. */
export function wiresOf(arrangement: Arrangement, count: number, disconnectPlace: string | undefined): Wires {
  const ahead: Pair = [
    disconnectPlace === 'positive-line' ? 'cp' : LINK[0],
    disconnectPlace === 'negative-line' ? 'cn' : LINK[1],
  ];
  const parted = disconnectPlace === 'between-containers';
  const containers = Array.from({ length: count }, (_, index): ContainerWires => {
    const last = index === count - 1;
    // Between two containers in series lies one wire, or two halves of it where the first gap holds the disconnect.
    const above = parted && index === 1 ? 'mid-1-below' : `mid-${index}`;
    return {
      container: arrangement.severalContainers ? `container-${index + 1}` : 'main',
      suffix: arrangement.severalContainers ? `-${index + 1}` : '',
      outside: [index === 0 ? ahead[0] : above, last ? ahead[1] : `mid-${index + 1}`],
    };
  });
  const disconnect = disconnectOf(disconnectPlace);
  return { containers, ahead, behind: LINK, ...(disconnect === undefined ? {} : { disconnect }) };
}

function disconnectOf(place: string | undefined): Pair | undefined {
  if (place === 'positive-line') return ['cp', LINK[0]];
  if (place === 'negative-line') return [LINK[1], 'cn'];
  return place === 'between-containers' ? ['mid-1', 'mid-1-below'] : undefined;
}
