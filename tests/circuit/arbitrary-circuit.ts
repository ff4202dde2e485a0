import fc from 'fast-check';
import type { CircuitInput } from '../../src/circuit/index.js';

/**
 * Sound circuits in wire form, every optional field in and out, quantities in all their forms. Built by hand, not from the
 * schemas, so that it says something about them.
 */

const nodeName = fc.constantFrom('bp', 'bn', 'lp', 'ln', 'mid', 'd', 'ch', 'Ω/~ #');
const nodePair = fc.uniqueArray(nodeName, { minLength: 2, maxLength: 2 });
const digits = (min: number, max: number) => fc.integer({ min, max });
const decimal = fc.tuple(digits(1, 999), digits(0, 99)).map(([whole, part]) => `${whole}.${part}`);

const quantity = (unit: string, low: number, high: number) =>
  fc.oneof(
    fc.double({ min: low, max: high, noNaN: true }),
    decimal.map((number) => `${number} ${unit}`),
    digits(1, 999).map((number) => `${number}${unit}`),
  );
const ohms = fc.oneof(
  quantity('Ω', 0.001, 1e9),
  quantity('kΩ', 0.001, 1e9),
  fc
    .tuple(digits(0, 99), fc.constantFrom('k', 'R', 'M', 'L'), digits(1, 99))
    .map(([a, letter, b]) => `${a}${letter}${b}`),
);
const farads = fc.oneof(
  quantity('µF', 1e-12, 10),
  digits(1, 999).map((number) => `${number}u`),
);
const volts = quantity('V', 0.001, 1e4);
const amperes = quantity('A', 0, 1e4);
const watts = quantity('W', 0, 1e4);
const seconds = quantity('ms', 0, 1e4);
const celsius = quantity('°C', -50, 300);
const ratio = fc.oneof(
  fc.double({ min: 0, max: 0.9, noNaN: true }),
  digits(0, 90).map((percent) => `${percent} %`),
);

const toleranced = (value: fc.Arbitrary<number | string>, low: number, high: number) =>
  fc.oneof(
    value,
    fc.record({ nominal: value, tolerance: ratio }),
    fc
      .tuple(...[0, 1, 2].map(() => fc.double({ min: low, max: high, noNaN: true })))
      .map((ends) => ends.sort((a, b) => a - b))
      .map(([min = 0, nominal = 0, max = 0]) => ({ min, nominal, max })),
  );
const resistance = toleranced(ohms, 0.001, 1e9);

const optional = <T>(fields: { [K in keyof T]: fc.Arbitrary<T[K]> }) => fc.record(fields, { requiredKeys: [] });

/** Fields that every element has, and those of its kind: `required` always, `more` in or out. */
function element(kind: string, required: object, more: object): fc.Arbitrary<Record<string, unknown>> {
  return fc
    .tuple(
      fc.record({ nodes: nodePair, zone: fc.constantFrom('container', 'vehicle'), ...required }),
      optional({
        container: fc.constantFrom('main', 'rear'),
        label: fc.string({ maxLength: 20 }).map(printable),
        ...more,
      }),
    )
    .map(([own, others]) => ({ kind, ...own, ...others }));
}

function printable(text: string): string {
  return text.replace(/\p{Cc}/gu, '.');
}

const current = amperes;
const elements: ReadonlyArray<fc.Arbitrary<Record<string, unknown>>> = [
  element('fuse', {}, { resistance, ratedCurrent: current, ratedDcVoltage: volts, breakingCurrent: current }),
  element(
    'contact',
    { rest: fc.constantFrom('open', 'closed') },
    {
      role: fc.constantFrom('isolation-relay', 'precharge-relay', 'discharge-relay', 'other'),
      construction: fc.constantFrom('electromechanical', 'solid-state'),
      suppliedBy: fc.constantFrom('shutdown-circuit', 'controller', 'independent'),
      auxiliary: fc.constantFrom('none', 'plain', 'guided', 'mirror'),
      auxiliaryContact: fc.constantFrom('normally-closed', 'normally-open'),
      resistance,
      openResistance: resistance,
      operateTime: seconds,
      releaseTime: seconds,
      ratings: optional({
        dcVoltage: volts,
        makingCurrent: current,
        breakingCurrent: current,
        carryingCurrent: current,
      }),
    },
  ),
  element('connector', {}, { resistance, ratedVoltage: volts }),
  element('disconnect', {}, { resistance, ratedVoltage: volts }),
  element(
    'resistor',
    { resistance },
    {
      role: fc.constantFrom('precharge', 'discharge', 'bleed', 'sense', 'body-protection', 'other'),
      technology: fc.constantFrom('wirewound', 'film', 'carbon', 'ptc', 'ntc', 'other'),
      resistanceCurve: fc
        .uniqueArray(digits(-50, 300), { minLength: 1, maxLength: 5 })
        .map((points) => points.sort((a, b) => a - b).map((point) => [point, 1 + point / 1000])),
      mounting: fc.constantFrom('as-rated', 'heat-sink', 'structure', 'free-air'),
      ambientMax: celsius,
      ratings: optional({
        power: watts,
        powerFreeAir: watts,
        fullPowerUpTo: quantity('°C', -50, 70).filter((value) => typeof value === 'number'),
        zeroPowerAt: fc.constantFrom(100, '250 °C'),
        voltage: volts,
        overload: fc.record({ factor: fc.double({ min: 1, max: 10, noNaN: true }), duration: seconds }),
      }),
      thermal: optional({
        resistance: quantity('K/W', 0.01, 100),
        capacitance: quantity('J/K', 0.01, 100),
        maxTemperature: celsius,
      }),
      surroundings: optional({
        limitTemperature: celsius,
        clearance: quantity('mm', 0, 1),
        measuredTemperature: celsius,
      }),
    },
  ),
  element(
    'capacitor',
    { capacitance: toleranced(farads, 1e-12, 10) },
    { esr: resistance, ratedVoltage: volts, initialVoltage: quantity('V', -1000, 1000) },
  ),
  element(
    'meter',
    { resistance },
    { role: fc.constantFrom('energy-meter', 'voltage-sense', 'insulation-monitor', 'indicator', 'other') },
  ),
  ...[{ resistance }, { current: toleranced(amperes, 0, 1e4) }, { power: toleranced(watts, 0, 1e4) }].map((value) =>
    element('load', value, {
      startsAbove: fc.constantFrom(100, '0.2 kV'),
      activeIn: fc.subarray(['precharge', 'drive', 'shutdown'], { minLength: 1 }),
    }),
  ),
  element('machine', { backEmf: toleranced(volts, 0, 1e4) }, { decay: seconds, resistance }),
];

const accumulator = element('accumulator', { voltage: toleranced(volts, 0.001, 1e4) }, { resistance });

/** Circuits of 1 to 12 elements. References name elements and nodes that exist. */
export const arbitraryCircuit: fc.Arbitrary<CircuitInput> = fc
  .tuple(
    accumulator,
    fc.array(fc.oneof(...elements), { maxLength: 11 }),
    fc.uniqueArray(fc.string({ minLength: 1, maxLength: 64 }).map(printable), { minLength: 12, maxLength: 12 }),
  )
  .chain(([first, others, ids]) => {
    const list = [first, ...others].map((own, index): Record<string, unknown> => ({ ...own, id: ids[index] }));
    // A plug parts with a container in which something stands.
    const inside = list.filter((own) => own['zone'] === 'container').map((own) => own['container'] ?? 'main');
    for (const own of list) {
      if (own['kind'] === 'connector' && inside.length > 0) own['separates'] = inside[0];
    }
    const nodes = [...new Set(list.flatMap((own) => own['nodes'] as string[]))];
    const contacts = list.filter((own) => own['kind'] === 'contact').map((own) => own['id'] as string);
    const movable = list.filter((own) => ['contact', 'connector', 'disconnect'].includes(own['kind'] as string));
    const node = fc.constantFrom(...nodes);
    const pair = fc.uniqueArray(node, { minLength: 2, maxLength: 2 });
    const ratioOrTime = fc.oneof(
      fc.record({ after: seconds }),
      fc.record({ when: fc.record({ linkRatio: ratio, falling: fc.boolean() }, { requiredKeys: ['linkRatio'] }) }),
    );
    const moves = fc
      .array(
        fc.tuple(fc.constantFrom(...movable.map((own) => own['id'] as string), ''), fc.constantFrom('close', 'open')),
      )
      .map((drawn) => {
        const state = new Map(drawn.filter(([id]) => id !== ''));
        const named = (way: string) => [...state].filter(([, own]) => own === way).map(([id]) => id);
        return { close: named('close'), open: named('open') };
      });
    const step = fc
      .tuple(ratioOrTime, moves, optional({ release: fc.boolean() }))
      .map(([when, named, more]) => ({ ...when, ...named, ...more }));
    return optional({
      title: fc.string({ maxLength: 50 }).map(printable),
      link: pair,
      measuringPoints: pair.map(([positive, negative]) => ({ positive, negative })),
      chassis: node,
      operatingCurrent: amperes,
      control: optional({
        sequence: fc.array(step, { maxLength: 4 }),
        precharge: optional({
          method: fc.constantFrom('voltage-comparison', 'timer'),
          threshold: ratio,
          comparisonError: ratio,
          reference: fc.constantFrom('measured', 'fixed'),
          fixedVoltage: volts,
          accumulatorSense: pair,
          linkSense: pair,
          delay: seconds,
          timeout: seconds,
          attempts: digits(1, 10),
          retryInterval: seconds,
          minimumRestartInterval: seconds,
        }),
      }),
      indicator: optional({ watches: fc.subarray(contacts), senses: fc.array(pair, { maxLength: 3 }) }),
      containerIndicator: optional({ senses: pair }),
      containerIndicators: fc.option(fc.array(fc.record({ senses: pair }, { requiredKeys: [] }), { maxLength: 3 }), {
        nil: undefined,
      }),
      ambient: optional({ max: celsius }),
    }).map((rest) => ({ ...rest, elements: list }) as unknown as CircuitInput);
  });
