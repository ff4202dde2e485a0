/** How the circuit of a row is wired, apart from what its columns say. */
export interface Arrangement {
  readonly id: string;
  readonly title: string;
  /** What choosing it states of the car. */
  readonly description: string;
  readonly severalContainers: boolean;
  /** The pole whose isolation relay the pre-charge branch bridges. */
  readonly prechargePole: 'positive' | 'negative';
}

const EACH =
  'Each container has a main fuse behind its positive pole and a normally open isolation relay inside it in either pole, and leaves the car by one plug a pole.';

function branch(pole: 'positive' | 'negative', container: string): string {
  const from = pole === 'positive' ? 'behind the main fuse' : 'at the negative pole';
  return `The pre-charge branch, a normally open relay and then the resistor, leads from ${from} of ${container} round its ${pole} isolation relay; the rise begins with every other isolation relay closed.`;
}

const OUTSIDE =
  'Outside stand the high-voltage disconnect, the link and the discharge circuit, a relay and then the resistor.';

export const arrangements: readonly Arrangement[] = [
  {
    id: 'one-container-positive',
    title: 'One container, pre-charge round the positive relay',
    description: `${EACH} ${branch('positive', 'the container')} ${OUTSIDE}`,
    severalContainers: false,
    prechargePole: 'positive',
  },
  {
    id: 'one-container-negative',
    title: 'One container, pre-charge round the negative relay',
    description: `${EACH} ${branch('negative', 'the container')} ${OUTSIDE}`,
    severalContainers: false,
    prechargePole: 'negative',
  },
  {
    id: 'series-containers-positive',
    title: 'Several containers in series, pre-charge round the most positive relay',
    description: `The voltage is shared alike by \`container_count\` containers in series, the first the most positive. ${EACH} ${branch('positive', 'the first container')} ${OUTSIDE}`,
    severalContainers: true,
    prechargePole: 'positive',
  },
  {
    id: 'series-containers-negative',
    title: 'Several containers in series, pre-charge round the most negative relay',
    description: `The voltage is shared alike by \`container_count\` containers in series, the first the most positive. ${EACH} ${branch('negative', 'the last container')} ${OUTSIDE}`,
    severalContainers: true,
    prechargePole: 'negative',
  },
];

export function arrangementById(id: string | undefined): Arrangement | undefined {
  return arrangements.find((arrangement) => arrangement.id === id);
}
