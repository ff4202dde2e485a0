/** A circuit as a client posts it, loosely typed: what the generator builds and the mistakes change. Numbers in SI only. */
export type Wire = Readonly<Record<string, unknown>>;

export interface Part extends Wire {
  readonly id: string;
  readonly kind: string;
  readonly nodes: readonly [string, string];
  readonly zone: 'container' | 'vehicle';
}

export interface Circuit extends Wire {
  readonly elements: readonly Part[];
  readonly link: readonly [string, string];
}

/** The element of that id; an error where there is none, so that a mistake never misses its part unseen. */
export function partOf(circuit: Circuit, id: string): Part {
  const part = circuit.elements.find((element) => element.id === id);
  if (part === undefined) throw new Error(`no element ${id}`);
  return part;
}

/** One element with some fields changed; `undefined` takes a field away. */
export function change(circuit: Circuit, id: string, fields: Wire): Circuit {
  const changed = merged(partOf(circuit, id), fields) as Part;
  return { ...circuit, elements: circuit.elements.map((element) => (element.id === id ? changed : element)) };
}

/** One element with fields of an object in it changed, the object's others kept. */
export function changeIn(circuit: Circuit, id: string, field: string, fields: Wire): Circuit {
  return change(circuit, id, { [field]: merged(partOf(circuit, id)[field] as Wire, fields) });
}

export function add(circuit: Circuit, ...parts: readonly Part[]): Circuit {
  return { ...circuit, elements: [...circuit.elements, ...parts] };
}

/** Without an element, wherever it is named: in the order of closing and among what the indicator watches. */
export function remove(circuit: Circuit, id: string): Circuit {
  partOf(circuit, id);
  const control = circuit['control'] as Wire;
  const indicator = circuit['indicator'] as Wire;
  const without = (ids: unknown) => (ids as readonly string[]).filter((each) => each !== id);
  const steps = (control['sequence'] as readonly Wire[] | undefined)?.map((step) => ({
    ...step,
    ...(step['close'] === undefined ? {} : { close: without(step['close']) }),
    ...(step['open'] === undefined ? {} : { open: without(step['open']) }),
  }));
  return {
    ...circuit,
    elements: circuit.elements.filter((element) => element.id !== id),
    control: { ...control, ...(steps === undefined ? {} : { sequence: steps }) },
    indicator: { ...indicator, watches: without(indicator['watches']) },
  };
}

/** Two nodes made one: `from` is called `to` wherever it stands. Elements with both ends there are gone. */
export function join(circuit: Circuit, from: string, to: string): Circuit {
  const renamed = renameNodes(circuit, (node) => (node === from ? to : node));
  return { ...renamed, elements: renamed.elements.filter(({ nodes: [a, b] }) => a !== b) };
}

/** Every node under another name, wherever a node is named. */
export function renameNodes(circuit: Circuit, name: (node: string) => string): Circuit {
  const pair = (nodes: unknown): [string, string] => {
    const [a, b] = nodes as [string, string];
    return [name(a), name(b)];
  };
  const control = circuit['control'] as Wire;
  const precharge = control['precharge'] as Wire;
  const points = circuit['measuringPoints'] as { positive: string; negative: string } | undefined;
  const indicator = circuit['indicator'] as Wire | undefined;
  const container = circuit['containerIndicator'] as Wire | undefined;
  const further = circuit['containerIndicators'] as readonly Wire[] | undefined;
  const sensed = ['accumulatorSense', 'linkSense'].filter((field) => precharge[field] !== undefined);
  return {
    ...circuit,
    elements: circuit.elements.map((element) => ({ ...element, nodes: pair(element.nodes) })),
    link: pair(circuit.link),
    ...(circuit['chassis'] === undefined ? {} : { chassis: name(circuit['chassis'] as string) }),
    ...(points === undefined
      ? {}
      : { measuringPoints: { positive: name(points.positive), negative: name(points.negative) } }),
    ...(indicator?.['senses'] === undefined
      ? {}
      : { indicator: { ...indicator, senses: (indicator['senses'] as unknown[]).map(pair) } }),
    ...(container === undefined ? {} : { containerIndicator: { senses: pair(container['senses']) } }),
    ...(further === undefined
      ? {}
      : { containerIndicators: further.map((each) => ({ senses: pair(each['senses']) })) }),
    control: {
      ...control,
      precharge: { ...precharge, ...Object.fromEntries(sensed.map((field) => [field, pair(precharge[field])])) },
    },
  };
}

/** The pre-charge control with some fields changed. */
export function control(circuit: Circuit, fields: Wire): Circuit {
  const known = circuit['control'] as Wire;
  return { ...circuit, control: { ...known, precharge: merged(known['precharge'] as Wire, fields) } };
}

/** The stated order of closing replaced, or taken away. */
export function order(circuit: Circuit, sequence: readonly Wire[] | undefined): Circuit {
  return { ...circuit, control: merged(circuit['control'] as Wire, { sequence }) };
}

function merged(known: Wire, fields: Wire): Wire {
  return Object.fromEntries(Object.entries({ ...known, ...fields }).filter(([, value]) => value !== undefined));
}
