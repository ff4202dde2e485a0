import { parallel } from '../build-car.js';
import type { Car } from '../car.js';
import { divider, harmless, type Mistake, riseFindings } from '../mistake.js';
import { about, fuse, ratingFor, resistor, rounded, underrated, wirewound } from '../parts.js';
import { add, type Circuit, change, changeIn, control, order, partOf, type Wire } from '../wire.js';

/** The car's own order, stated, with the last relays closing by `closing` and the steps after it as they were. */
function closingBy(circuit: Circuit, closing: Wire): Circuit {
  const stated = (circuit['control'] as Wire)['sequence'] as readonly Wire[] | undefined;
  return stated === undefined
    ? circuit
    : order(
        circuit,
        stated.map((step) => (step['when'] === undefined ? step : { ...closing, close: step['close'] })),
      );
}

const opensDischarge = ({ discharge }: Car) => (discharge === 'relay' ? { open: ['k-dis'] } : {});
const completing = ({ relays, last }: Car) => relays.filter((id) => !last.includes(id));

/** The team's order, from its first steps to the end. */
function ordered(car: Car, steps: readonly Wire[]): Circuit {
  return order(car.circuit, [...steps, { after: 0.2, open: ['k-pre'] }, { after: 10, release: true }]);
}

/** The pre-charge relay opens at 96 %, the last relay closes so many s later. */
function openingFirst(car: Car, gap: number): Circuit {
  return order(car.circuit, [
    { at: 0, close: [...completing(car), 'k-pre'], ...opensDischarge(car) },
    { when: { linkRatio: 0.96 }, open: ['k-pre'] },
    { after: gap, close: [...car.last] },
    { after: 10, release: true },
  ]);
}

/** Packs in parallel may differ by their whole range, so nobody can label their inrush by hand. */
const unequalPacks = ({ containers }: Car) => containers === 'parallel';

const timeConstant = (car: { readonly ohms: { readonly precharge: number }; readonly farads: number }) =>
  car.ohms.precharge * car.farads;

/** What decides that the link is charged, and in what order the relays close. */
export const prechargeMistakes: readonly Mistake[] = [
  {
    id: 'a timer decides, long enough',
    // 12 time constants and a second: more than twice the time to 90 % and that time plus 0.5 s.
    change: (car) =>
      closingBy(control(car.circuit, { method: 'timer', delay: 1 + 12 * timeConstant(car) }), {
        after: 1 + 12 * timeConstant(car),
      }),
    violates: (_, { timerAllowed }) => (timerAllowed ? [] : ['precharge-compares-voltages']),
  },
  {
    id: 'a timer decides, too early',
    // 1.6 time constants: the link stands at 80 %.
    change: (car) =>
      closingBy(control(car.circuit, { method: 'timer', delay: 1.6 * timeConstant(car) }), {
        after: 1.6 * timeConstant(car),
      }),
    violates: (car) => (unequalPacks(car) ? undefined : ['precharge-compares-voltages', 'precharge-order']),
  },
  {
    id: 'the reference is a fixed voltage',
    change: ({ circuit, volts }) => control(circuit, { reference: 'fixed', fixedVoltage: 0.88 * volts }),
    violates: ['precharge-compares-voltages'],
  },
  {
    id: 'the threshold is set far too low',
    change: ({ circuit }) => closingBy(control(circuit, { threshold: 0.88 }), { when: { linkRatio: 0.88 } }),
    violates: ({ stated }) => ['precharge-setting', ...(stated ? ['precharge-order'] : [])],
  },
  {
    id: 'the threshold is set between the levels of the books',
    change: ({ circuit }) => closingBy(control(circuit, { threshold: 0.93 }), { when: { linkRatio: 0.93 } }),
    violates: ({ stated }, { level }) =>
      level < 0.925 ? [] : ['precharge-setting', ...(stated ? ['precharge-order'] : [])],
  },
  {
    id: 'the comparison is inexact',
    change: ({ circuit }) => control(circuit, { comparisonError: 0.015 }),
    violates: (_, { level }) => (level < 0.945 ? [] : ['precharge-setting']),
  },
  {
    id: 'the threshold is set above what is reached',
    change: ({ circuit }) =>
      closingBy(control(circuit, { threshold: 0.995, comparisonError: 0.003 }), { when: { linkRatio: 0.995 } }),
    violates: ['precharge-reaches-setting', 'precharge-completes-in-time'],
  },
  {
    id: 'too gentle for 95 %',
    change: ({ circuit, ohms }) =>
      change(circuit, 'r-pre', { resistance: about(rounded(ohms.load * (1 / 0.93 - 1)), 0.05) }),
    violates: (_, book) => riseFindings(0.93, book),
  },
  {
    id: 'too gentle for 90 %',
    change: ({ circuit, ohms }) =>
      change(circuit, 'r-pre', { resistance: about(rounded(ohms.load * (1 / 0.86 - 1)), 0.05) }),
    violates: (_, book) => riseFindings(0.86, book),
  },
  {
    id: 'an energy meter of low resistance',
    change: ({ circuit, ohms }) =>
      change(circuit, 'energy-meter', { resistance: about(rounded(ohms.precharge / (1 / 0.92 - 1)), 0.01) }),
    violates: (car, book) =>
      riseFindings(divider(car.ohms.precharge, parallel([car.ohms.load, car.ohms.precharge / (1 / 0.92 - 1)])), book),
  },
  {
    id: 'a load draws current in the rise',
    change: ({ circuit, volts, ohms }) =>
      add(circuit, {
        id: 'pump',
        kind: 'load',
        nodes: ['lp', 'ln'],
        zone: 'vehicle',
        // It draws the same at the lowest voltage of the accumulator, where its share is larger still.
        current: about(rounded((0.13 * volts) / ohms.precharge), 0.05),
      }),
    violates: (_, book) => riseFindings(0.98 - 0.13 / 0.72, book),
  },
  {
    id: 'the timeout ends sound rises',
    // To 96 % it takes 3.2 time constants at least.
    change: (car) => control(car.circuit, { timeout: 2 * timeConstant(car) }),
    violates: ['precharge-completes-in-time'],
  },
  {
    id: 'a pre-charge resistor of too little power',
    change: ({ circuit, volts, ohms }) => {
      // A fifteenth of what the first instant asks, overload and all, and a mass to match; restarts wait until it has cooled.
      const watts = rounded(volts ** 2 / ohms.precharge / 5 / 15);
      return control(underrated(circuit, 'r-pre', watts), { minimumRestartInterval: 200 });
    },
    violates: ['precharge-resistor-rating'],
  },
  {
    id: 'starts in a row heat the pre-charge resistor',
    // One start leaves ½CU², 2 K in this mass, and shorts until the timeout not a hundred times as much; but it hardly cools until the next.
    change: ({ circuit, volts, farads }) =>
      changeIn(control(circuit, { minimumRestartInterval: 4 }), 'r-pre', 'thermal', {
        capacitance: rounded((0.5 * farads * volts ** 2) / 2),
        resistance: 2000,
      }),
    violates: ['restart-heat'],
  },
  {
    id: 'a pre-charge resistor that is a PTC',
    change: ({ circuit }) => change(circuit, 'r-pre', { technology: 'ptc' }),
    violates: ['no-ptc'],
  },
  {
    id: 'a fuse in the pre-charge branch',
    change: ({ circuit, branch }) => {
      const { zone, container, nodes } = partOf(circuit, 'r-pre');
      const [start] = nodes;
      const fused = change(circuit, 'r-pre', { nodes: ['prf', branch.to] });
      return add(fused, fuse('fuse-pre', [start, 'prf'], { ratedCurrent: 10, zone, container }));
    },
    violates: ['precharge-unfused'],
  },
  {
    id: 'the link is sensed ahead of the disconnect',
    change: ({ circuit, ahead }) => control(circuit, { linkSense: [...ahead] }),
    violates: ['precharge-compares-voltages'],
  },
  {
    id: 'the link is sensed at the cells',
    change: ({ circuit }) =>
      control(circuit, { linkSense: ((circuit['control'] as Wire)['precharge'] as Wire)['accumulatorSense'] }),
    violates: ['precharge-compares-voltages'],
  },
  {
    id: 'both voltages are sensed at the link',
    // Compared with itself it is at 100 % from the first instant.
    change: ({ circuit }) => control(circuit, { accumulatorSense: ['lp', 'ln'] }),
    violates: ['precharge-compares-voltages'],
  },
  {
    id: 'the accumulator is sensed behind its relays',
    change: ({ circuit, terminals, containers }) =>
      containers === 'one' ? control(circuit, { accumulatorSense: [...terminals] }) : undefined,
    violates: ['precharge-compares-voltages'],
  },
  {
    id: 'every relay closes at once',
    change: (car) => ordered(car, [{ at: 0, close: [...car.relays, 'k-pre'], ...opensDischarge(car) }]),
    // U/(0.8 mΩ/V·U) is more than 1 kA onto the empty link.
    violates: ['precharge-order', 'relay-ratings'],
  },
  {
    id: 'the last relay closes first',
    change: (car) =>
      ordered(car, [
        { at: 0, close: [...car.last], ...opensDischarge(car) },
        { after: 0.1, close: [...completing(car), 'k-pre'] },
      ]),
    violates: ['precharge-order'],
    // The same inrush passes another relay, whose closing completes the circuit: whether its rating is asked about is one's choice.
    tolerated: ['relay-ratings'],
  },
  {
    id: 'the last relay closes at 80 %',
    change: (car) =>
      ordered(car, [
        { at: 0, close: [...completing(car), 'k-pre'], ...opensDischarge(car) },
        { when: { linkRatio: 0.8 }, close: [...car.last] },
      ]),
    violates: (car) => (unequalPacks(car) ? undefined : ['precharge-order']),
  },
  {
    id: 'the pre-charge relay opens long before the last relay closes',
    change: (car) => openingFirst(car, 5),
    // The meter empties the link with 14 s and more: 0.96·e^(−5/32) is 0.82. A permanent discharge leaves less than a third.
    violates: (car) =>
      unequalPacks(car) ? undefined : ['precharge-order', ...(car.discharge === 'permanent' ? ['relay-ratings'] : [])],
  },
  harmless('the pre-charge relay opens just before the last relay closes', (car) => openingFirst(car, 0.004)),
  harmless('a pre-charge resistor of a third of the value, rated for it', ({ circuit, volts, ohms }) => {
    const value = rounded(ohms.precharge / 3);
    const watts = ratingFor((2 * volts ** 2) / value / 5 / 0.8);
    const amperes = rounded((1.5 * volts) / (0.95 * value));
    const stronger = changeIn(circuit, 'k-pre', 'ratings', {
      makingCurrent: amperes,
      breakingCurrent: amperes,
      carryingCurrent: amperes,
    });
    return change(stronger, 'r-pre', { resistance: about(value, 0.05), ...wirewound(watts) });
  }),
  harmless('two pre-charge resistors in series', ({ circuit, branch, ohms }) => {
    const { zone, container, ratings, thermal } = partOf(circuit, 'r-pre');
    const half = change(circuit, 'r-pre', {
      nodes: [partOf(circuit, 'r-pre').nodes[0], 'pr2'],
      resistance: about(ohms.precharge / 2, 0.05),
    });
    return add(half, {
      ...resistor('r-pre-2', 'precharge', ['pr2', branch.to], ohms.precharge / 2, 100),
      ratings,
      thermal,
      zone,
      ...(container === undefined ? {} : { container }),
    });
  }),
];
