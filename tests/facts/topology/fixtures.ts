import { readCircuit } from '../../../src/circuit/read-circuit.js';
import type { ResolvedCircuit } from '../../../src/circuit/model.js';
import type { Conditions } from '../../../src/facts/conditions.js';

/** An element as a request states it. */
export interface Wire {
  readonly id: string;
  readonly kind: string;
  readonly nodes: readonly [string, string];
  readonly zone: string;
  readonly [field: string]: unknown;
}

/** What a ruleset might prescribe; 500 Ω/V and 95 % as in the common rulebooks. */
export const conditions: Conditions = {
  threshold: 0.95,
  dischargeVoltage: 60,
  dischargeVoltageStrict: true,
  dischargeTime: 5,
  dischargeTimeStrict: true,
  dischargeClock: 'shutdown-opens',
  dischargeRatingTime: null,
  repeats: { count: 3, within: 15 },
  maximumReleaseTime: 0.25,
  assumedTolerance: { resistor: 0.1, capacitor: 0.2, meter: 0.02 },
  separationStates: ['disconnect-open', 'container-removed', 'all-separated'],
  isolationPerVolt: 500,
  maximumVoltage: 600,
};

/** Reads elements as a circuit; a fault fails the test. */
export function circuitOf(elements: readonly Wire[], rest: Record<string, unknown> = {}): ResolvedCircuit {
  const reading = readCircuit({ elements, link: ['lp', 'ln'], ...rest }, '#/circuit');
  if ('faults' in reading)
    throw new Error(reading.faults.map(({ pointer, detail }) => `${pointer} ${detail}`).join('\n'));
  return reading.circuit;
}

/** The elements with some of them changed or left out (`undefined`), and others added. */
export function changed(
  elements: readonly Wire[],
  changes: Readonly<Record<string, Readonly<Record<string, unknown>> | undefined>>,
  added: readonly Wire[] = [],
): Wire[] {
  for (const id of Object.keys(changes)) {
    if (!elements.some((element) => element.id === id)) throw new Error(`no element ${id} to change`);
  }
  const kept = elements.filter(({ id }) => !(id in changes) || changes[id] !== undefined);
  return [...kept.map((element) => without({ ...element, ...changes[element.id] })), ...added];
}

/** A field changed to `undefined` is one that is not stated. */
function without(element: Wire): Wire {
  return Object.fromEntries(Object.entries(element).filter(([, value]) => value !== undefined)) as unknown as Wire;
}

export const exact = (nominal: number) => ({ nominal, tolerance: 0 });

export function accumulator(id: string, nodes: [string, string], container = 'main', voltage = 400): Wire {
  const range = { min: 0.75 * voltage, nominal: voltage, max: 1.05 * voltage };
  return { id, kind: 'accumulator', nodes, zone: 'container', container, voltage: range };
}

export function relay(id: string, nodes: [string, string], fields: Record<string, unknown> = {}): Wire {
  return {
    id,
    kind: 'contact',
    nodes,
    zone: 'container',
    rest: 'open',
    role: 'isolation-relay',
    construction: 'electromechanical',
    suppliedBy: 'shutdown-circuit',
    ...fields,
  };
}

export function resistor(
  id: string,
  nodes: [string, string],
  ohms: number,
  fields: Record<string, unknown> = {},
): Wire {
  return { id, kind: 'resistor', nodes, zone: 'vehicle', resistance: exact(ohms), ...fields };
}

export function plug(id: string, nodes: [string, string], separates = 'main'): Wire {
  return { id, kind: 'connector', nodes, zone: 'container', container: separates, separates };
}

const precharge = { role: 'precharge-relay' };
const discharge = { role: 'discharge-relay', rest: 'closed', zone: 'vehicle' };

/** The car from the plugs on: disconnect in the positive line, link, meter, discharge through a contact closed at rest. */
const vehicle: readonly Wire[] = [
  { id: 'hvd', kind: 'disconnect', nodes: ['vp', 'lp'], zone: 'vehicle' },
  { id: 'c-link', kind: 'capacitor', nodes: ['lp', 'ln'], zone: 'vehicle', capacitance: exact(500e-6) },
  { id: 'energy', kind: 'meter', nodes: ['vp', 'ln'], zone: 'vehicle', resistance: exact(47000), role: 'energy-meter' },
  relay('k-dis', ['lp', 'd'], discharge),
  resistor('r-dis', ['d', 'ln'], 5000, { role: 'discharge' }),
  { id: 'inverter', kind: 'load', nodes: ['lp', 'ln'], zone: 'vehicle', current: 0.01 },
  resistor('r-mp', ['lp', 'mp'], 15000, { role: 'body-protection' }),
  resistor('r-mn', ['ln', 'mn'], 15000, { role: 'body-protection' }),
];

/** One container, pre-charge round the positive isolation relay. */
export const plain: readonly Wire[] = [
  accumulator('acc', ['bp', 'bn']),
  { id: 'fuse', kind: 'fuse', nodes: ['bp', 'bf'], zone: 'container', ratedCurrent: 100 },
  relay('air-pos', ['bf', 'hp']),
  relay('air-neg', ['bn', 'hn']),
  relay('k-pre', ['bf', 'm'], precharge),
  resistor('r-pre', ['m', 'hp'], 1000, { zone: 'container', role: 'precharge' }),
  plug('plug-pos', ['hp', 'vp']),
  plug('plug-neg', ['hn', 'ln']),
  ...vehicle,
];

/** The same with the pre-charge round the negative isolation relay. */
export const negative: readonly Wire[] = changed(plain, {
  'k-pre': { nodes: ['bn', 'm'] },
  'r-pre': { nodes: ['m', 'hn'] },
});

/** Two containers in series, joined by plugs and a cable; each with two isolation relays; pre-charge in the front one. */
export const series: readonly Wire[] = [
  accumulator('acc-front', ['ap', 'an'], 'front', 300),
  accumulator('acc-rear', ['cp', 'cn'], 'rear', 300),
  relay('air-front-pos', ['ap', 'hp'], { container: 'front' }),
  relay('air-front-neg', ['an', 'fn'], { container: 'front' }),
  relay('k-pre', ['ap', 'm'], { ...precharge, container: 'front' }),
  resistor('r-pre', ['m', 'hp'], 1000, { zone: 'container', container: 'front', role: 'precharge' }),
  relay('air-rear-pos', ['cp', 'rp'], { container: 'rear' }),
  relay('air-rear-neg', ['cn', 'hn'], { container: 'rear' }),
  plug('plug-front-pos', ['hp', 'vp'], 'front'),
  plug('plug-front-neg', ['fn', 'mid'], 'front'),
  plug('plug-rear-pos', ['mid', 'rp'], 'rear'),
  plug('plug-rear-neg', ['hn', 'ln'], 'rear'),
  ...vehicle,
];

/** Two containers in parallel, each with its own relays and its own pre-charge. */
export const parallel: readonly Wire[] = [
  ...(['left', 'right'] as const).flatMap((container) => [
    accumulator(`acc-${container}`, [`${container}-p`, `${container}-n`], container),
    relay(`air-${container}-pos`, [`${container}-p`, `${container}-hp`], { container }),
    relay(`air-${container}-neg`, [`${container}-n`, `${container}-hn`], { container }),
    relay(`k-pre-${container}`, [`${container}-p`, `${container}-m`], { ...precharge, container }),
    resistor(`r-pre-${container}`, [`${container}-m`, `${container}-hp`], 1000, {
      zone: 'container',
      container,
      role: 'precharge',
    }),
    plug(`plug-${container}-pos`, [`${container}-hp`, 'vp'], container),
    plug(`plug-${container}-neg`, [`${container}-hn`, 'ln'], container),
  ]),
  ...vehicle,
];

/** A second inverter behind a contactor of its own. */
export const twoInverters: readonly Wire[] = [
  ...plain,
  relay('k-second', ['lp', 'lp2'], { role: 'other', zone: 'vehicle' }),
  { id: 'c-second', kind: 'capacitor', nodes: ['lp2', 'ln'], zone: 'vehicle', capacitance: exact(300e-6) },
  resistor('r-bleed', ['lp2', 'ln'], 8000, { role: 'bleed' }),
];

/** A discharge resistor that is always connected. */
export const permanent: readonly Wire[] = changed(plain, { 'k-dis': undefined, 'r-dis': { nodes: ['lp', 'ln'] } });

/** The discharge inside the container, on the car's side of the isolation relays. */
export const dischargeInside: readonly Wire[] = changed(plain, {
  'k-dis': { nodes: ['hp', 'd'], zone: 'container' },
  'r-dis': { nodes: ['d', 'hn'], zone: 'container' },
});

/** The discharge in the car, but on the container's side of the disconnect. */
export const dischargeBeforeDisconnect: readonly Wire[] = changed(plain, { 'k-dis': { nodes: ['vp', 'd'] } });

export const arrangements: Readonly<Record<string, readonly Wire[]>> = {
  plain,
  negative,
  series,
  parallel,
  twoInverters,
  permanent,
  dischargeInside,
  dischargeBeforeDisconnect,
};
