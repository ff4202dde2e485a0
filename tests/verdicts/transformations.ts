import { type Circuit, type Part, partOf, renameNodes, type Wire } from './wire.js';

/** A seeded source of numbers in [0, 1): a linear congruence (constants from a textbook, from memory). */
export function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return state / 2_147_483_648;
  };
}

export function shuffled<T>(items: readonly T[], random: () => number): T[] {
  const left = [...items];
  return items.map(() => left.splice(Math.floor(random() * left.length), 1)[0]!);
}

/** Every node and every id under another name, in no order that tells of the old. */
export function renamed(circuit: Circuit, random: () => number): Circuit {
  const names = (old: readonly string[], letter: string) =>
    new Map(shuffled(old, random).map((name, index) => [name, `${letter}${String(index)}`]));
  const nodes = names([...new Set(circuit.elements.flatMap((part) => part.nodes))], 'n');
  const ids = names(
    circuit.elements.map(({ id }) => id),
    'e',
  );
  const all = (list: unknown) => (list as string[] | undefined)?.map((id) => ids.get(id)!);
  const named = renameNodes(circuit, (node) => nodes.get(node)!);
  const control = named['control'] as Wire;
  const indicator = named['indicator'] as Wire;
  const steps = (control['sequence'] as readonly Wire[] | undefined)?.map((step) => ({
    ...step,
    ...(step['close'] === undefined ? {} : { close: all(step['close']) }),
    ...(step['open'] === undefined ? {} : { open: all(step['open']) }),
  }));
  return {
    ...named,
    elements: named.elements.map((part) => ({ ...part, id: ids.get(part.id)! })),
    control: { ...control, ...(steps === undefined ? {} : { sequence: steps }) },
    indicator: { ...indicator, watches: all(indicator['watches']) },
  };
}

/** Positive and negative exchanged: what has a polarity is turned round, and so is every pair of leads. */
export function polesSwapped(circuit: Circuit): Circuit {
  const turned = (pair: unknown) => [...(pair as string[])].reverse();
  const control = circuit['control'] as Wire;
  const precharge = control['precharge'] as Wire;
  const indicator = circuit['indicator'] as Wire;
  const points = circuit['measuringPoints'] as { positive: string; negative: string };
  const further = circuit['containerIndicators'] as readonly Wire[] | undefined;
  return {
    ...circuit,
    elements: circuit.elements.map((part) =>
      part.kind === 'accumulator' || part.kind === 'load' ? { ...part, nodes: [part.nodes[1], part.nodes[0]] } : part,
    ),
    link: [circuit.link[1], circuit.link[0]],
    measuringPoints: { positive: points.negative, negative: points.positive },
    indicator: { ...indicator, senses: (indicator['senses'] as unknown[]).map(turned) },
    containerIndicator: { senses: turned((circuit['containerIndicator'] as Wire)['senses']) },
    ...(further === undefined
      ? {}
      : { containerIndicators: further.map((each) => ({ senses: turned(each['senses']) })) }),
    control: {
      ...control,
      precharge: {
        ...precharge,
        accumulatorSense: turned(precharge['accumulatorSense']),
        linkSense: turned(precharge['linkSense']),
      },
    },
  };
}

/** A resistor and a meter that nothing else touches. */
export function withUnconnectedParts(circuit: Circuit): Circuit {
  const [sample] = circuit.elements.filter(({ id }) => id === 'r-mp' || id === 'r-pre');
  const loose: Part = {
    ...sample!,
    id: 'a-loose-resistor',
    role: 'other',
    zone: 'vehicle',
    nodes: ['loose-1', 'loose-2'],
  };
  const meter: Part = {
    id: 'a-loose-meter',
    kind: 'meter',
    zone: 'vehicle',
    role: 'other',
    nodes: ['loose-2', 'loose-3'],
    resistance: { nominal: 1e6, tolerance: 0.01 },
  };
  return { ...circuit, elements: [...circuit.elements, loose, meter] };
}

/** One resistor made of two halves in series: each takes half the power and the voltage, and is rated and heavy for that. */
export function split(circuit: Circuit, id: string): Circuit {
  const whole = partOf(circuit, id);
  const [a, b] = whole.nodes;
  const scaled = (fields: unknown, factors: Readonly<Record<string, number>>) =>
    fields === undefined
      ? undefined
      : Object.fromEntries(
          Object.entries(fields as Wire).map(([name, value]) => [
            name,
            factors[name] === undefined ? value : (value as number) * factors[name],
          ]),
        );
  const { nominal, tolerance } = whole['resistance'] as { nominal: number; tolerance: number };
  const half = {
    ...whole,
    resistance: { nominal: nominal / 2, tolerance },
    ratings: scaled(whole['ratings'], { power: 0.5, powerFreeAir: 0.5, voltage: 0.5 }),
    thermal: scaled(whole['thermal'], { resistance: 2, capacitance: 0.5 }),
  };
  const halves: Part[] = [
    { ...half, id, nodes: [a, `half-of-${id}`] },
    { ...half, id: `${id}-second`, nodes: [`half-of-${id}`, b] },
  ];
  return { ...circuit, elements: circuit.elements.flatMap((part) => (part.id === id ? halves : [part])) };
}

export function permuted(circuit: Circuit, random: () => number): Circuit {
  return { ...circuit, elements: shuffled(circuit.elements, random) };
}
