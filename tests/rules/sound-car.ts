import type { Element, ResolvedCircuit, Toleranced } from '../../src/circuit/model.js';

/** An exact value: its tolerance is stated and 0. */
export function exact(nominal: number): Toleranced {
  return { min: nominal, nominal, max: nominal, toleranceStated: true };
}

/** ± a relative tolerance. */
export function about(nominal: number, tolerance: number): Toleranced {
  return { min: nominal * (1 - tolerance), nominal, max: nominal * (1 + tolerance), toleranceStated: true };
}

/** A value whose tolerance is not stated. */
export function bare(nominal: number): Toleranced {
  return { min: nominal, nominal, max: nominal, toleranceStated: false };
}

type Part<E extends Element = Element> = E extends Element
  ? Omit<E, 'pointer' | 'container'> & { container?: string }
  : never;

const relay = {
  kind: 'contact',
  zone: 'container',
  rest: 'open',
  construction: 'electromechanical',
  suppliedBy: 'shutdown-circuit',
  auxiliary: 'mirror',
  auxiliaryContact: 'normally-closed',
  ratings: { dcVoltage: 800, makingCurrent: 300, breakingCurrent: 500, carryingCurrent: 200 },
} as const;

const ratings = {
  power: 100,
  fullPowerUpTo: 40,
  zeroPowerAt: 240,
  voltage: 1000,
  overload: { factor: 5, duration: 5 },
} as const;
const thermal = { resistance: 2, capacitance: 60, maxTemperature: 240 } as const;

/**
 * The parts of a car without a fault: 400 V, pre-charge 1 kΩ round the positive isolation relay, 500 µF on the link, 4.7 kΩ of
 * discharge behind a normally closed contact at the capacitor, disconnect in the positive line, measuring points.
 */
export const soundParts: readonly Part[] = [
  {
    id: 'acc',
    kind: 'accumulator',
    nodes: ['bp', 'bn'],
    zone: 'container',
    voltage: { min: 300, nominal: 370, max: 400, toleranceStated: true },
    resistance: about(0.15, 0.2),
  },
  {
    id: 'fuse-main',
    kind: 'fuse',
    nodes: ['bp', 'f'],
    zone: 'container',
    ratedCurrent: 100,
    ratedDcVoltage: 700,
    breakingCurrent: 20_000,
  },
  { id: 'air-pos', ...relay, role: 'isolation-relay', nodes: ['f', 'tp'] },
  { id: 'air-neg', ...relay, role: 'isolation-relay', nodes: ['bn', 'tn'] },
  {
    id: 'k-pre',
    ...relay,
    role: 'precharge-relay',
    nodes: ['f', 'pm'],
    ratings: { ...relay.ratings, carryingCurrent: 10 },
  },
  {
    id: 'r-pre',
    kind: 'resistor',
    nodes: ['pm', 'tp'],
    zone: 'container',
    role: 'precharge',
    technology: 'wirewound',
    mounting: 'as-rated',
    resistance: about(1000, 0.05),
    ratings,
    thermal,
  },
  { id: 'hvd', kind: 'disconnect', nodes: ['tp', 'lp'], zone: 'vehicle', ratedVoltage: 700 },
  {
    id: 'c-link',
    kind: 'capacitor',
    nodes: ['lp', 'tn'],
    zone: 'vehicle',
    capacitance: about(500e-6, 0.1),
    esr: about(0.005, 0.2),
    ratedVoltage: 500,
    initialVoltage: 0,
  },
  {
    id: 'k-dis',
    ...relay,
    zone: 'vehicle',
    role: 'discharge-relay',
    rest: 'closed',
    nodes: ['lp', 'dm'],
  },
  {
    id: 'r-dis',
    kind: 'resistor',
    nodes: ['dm', 'tn'],
    zone: 'vehicle',
    role: 'discharge',
    technology: 'wirewound',
    mounting: 'as-rated',
    resistance: about(4000, 0.05),
    ratings,
    thermal,
    surroundings: { limitTemperature: 200 },
  },
  {
    id: 'meter',
    kind: 'meter',
    nodes: ['tp', 'tn'],
    zone: 'vehicle',
    role: 'energy-meter',
    resistance: about(47_000, 0.02),
  },
  {
    id: 'r-mp',
    kind: 'resistor',
    nodes: ['lp', 'mp'],
    zone: 'vehicle',
    role: 'body-protection',
    technology: 'film',
    mounting: 'as-rated',
    resistance: about(10_000, 0.01),
    ratings: { ...ratings, power: 5 },
  },
  {
    id: 'r-mn',
    kind: 'resistor',
    nodes: ['tn', 'mn'],
    zone: 'vehicle',
    role: 'body-protection',
    technology: 'film',
    mounting: 'as-rated',
    resistance: about(10_000, 0.01),
    ratings: { ...ratings, power: 5 },
  },
];

const soundControl: ResolvedCircuit['control'] = {
  precharge: {
    method: 'voltage-comparison',
    threshold: 0.97,
    comparisonError: 0.005,
    reference: 'measured',
    accumulatorSense: ['f', 'bn'],
    linkSense: ['lp', 'tn'],
    timeout: 5,
    attempts: 1,
    minimumRestartInterval: 60,
  },
};

/**
 * The sound car's circuit with some of its parts changed, taken out (`null`) or added.
 * @param changes by element id
 */
export function soundCircuit(
  changes: Readonly<Record<string, object | null>> = {},
  rest: Partial<ResolvedCircuit> & { readonly precharge?: object } = {},
): ResolvedCircuit {
  const known = soundParts.filter(({ id }) => changes[id] !== null).map((part) => ({ ...part, ...changes[part.id] }));
  const added = Object.entries(changes)
    .filter(([id, change]) => change !== null && soundParts.every((part) => part.id !== id))
    .map(([id, change]) => ({ id, zone: 'vehicle', ...change }));
  const elements = [...known, ...added].map(
    (part, index) =>
      withoutUndefined({
        container: 'main',
        ...part,
        pointer: `#/circuit/elements/${String(index)}`,
      }) as unknown as Element,
  );
  const { precharge, ...others } = rest;
  const circuit: ResolvedCircuit = {
    elements: elements.toSorted((a, b) => (a.id < b.id ? -1 : 1)),
    nodes: [...new Set(elements.flatMap(({ nodes }) => nodes))].sort(),
    link: ['lp', 'tn'],
    linkStated: true,
    measuringPoints: { positive: 'mp', negative: 'mn' },
    operatingCurrent: 80,
    control: precharge === undefined ? soundControl : { precharge: { ...soundControl.precharge, ...precharge } },
    indicator: { watches: ['air-neg', 'air-pos', 'k-pre'], senses: [['lp', 'tn']] },
    containerIndicator: { senses: ['tp', 'tn'] },
    ambientMax: 40,
    pointer: '#/circuit',
    ...others,
  };
  return withoutUndefined(circuit) as ResolvedCircuit;
}

/** A change to `undefined` takes a field away, at any depth of plain objects. */
function withoutUndefined(value: object): object {
  return Object.fromEntries(
    Object.entries(value)
      .filter(([, field]) => field !== undefined)
      .map(([name, field]) => [name, isPlainObject(field) ? withoutUndefined(field) : field]),
  );
}

function isPlainObject(value: unknown): value is object {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Where an element's field stands in a circuit. */
export function pointerTo(circuit: ResolvedCircuit, id: string, field: string): string {
  return `${circuit.elements.find((element) => element.id === id)!.pointer}/${field}`;
}
