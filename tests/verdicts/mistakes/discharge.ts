import { parallel } from '../build-car.js';
import type { Car } from '../car.js';
import type { Book } from '../books.js';
import { divider, harmless, type Mistake, riseFindings } from '../mistake.js';
import { about, fuse, meter, relay, resistor, rounded, underrated } from '../parts.js';
import { add, change, changeIn, type Circuit, join, order, remove, type Wire } from '../wire.js';

const switched = (car: Car, make: (circuit: Circuit) => Circuit) =>
  car.discharge === 'relay' ? make(car.circuit) : undefined;

/** The contact that stays closed in the rise loads it; where the team has stated its order, that opens it. */
const loadsTheRise = (car: Car, book: Book, rules: readonly string[]) => {
  if (car.stated) return rules;
  const rise = riseFindings(divider(car.ohms.precharge, parallel([car.ohms.load, car.ohms.discharge])), book);
  return rise && [...rules, ...rise];
};

const lost = ['discharge-time', 'discharge-stays-with-car'];

/** The discharge with a resistor of this share of the power that it takes. */
function weakDischarge({ circuit, volts, ohms }: Car, share: number): Circuit {
  return underrated(circuit, 'r-dis', rounded((share * volts ** 2) / ohms.discharge));
}

export const dischargeMistakes: readonly Mistake[] = [
  {
    id: 'a discharge contact open at rest',
    change: (car) => switched(car, (circuit) => change(circuit, 'k-dis', { rest: 'open' })),
    // Energised it closes; an order that is stated never closes it.
    violates: (car, book) => loadsTheRise(car, book, ['discharge-time', 'discharge-fail-safe']),
  },
  {
    id: 'a discharge contact with a supply of its own',
    change: (car) => switched(car, (circuit) => change(circuit, 'k-dis', { suppliedBy: 'independent' })),
    violates: (car, book) => loadsTheRise(car, book, ['discharge-time', 'discharge-fail-safe']),
  },
  {
    id: 'a discharge contact switched by software',
    change: (car) => switched(car, (circuit) => change(circuit, 'k-dis', { suppliedBy: 'controller' })),
    violates: ['discharge-time', 'discharge-fail-safe'],
  },
  {
    id: 'no discharge at all',
    change: (car) => {
      const without = remove(car.circuit, 'r-dis');
      return car.discharge === 'relay' ? remove(without, 'k-dis') : without;
    },
    violates: ['discharge-time'],
  },
  {
    id: 'a fuse in the discharge',
    change: ({ circuit, discharge }) => {
      const id = discharge === 'relay' ? 'k-dis' : 'r-dis';
      const far = discharge === 'relay' ? 'dr' : 'ln';
      return add(change(circuit, id, { nodes: ['df', far] }), fuse('fuse-dis', ['lp', 'df'], { ratedCurrent: 2 }));
    },
    violates: ['discharge-unfused'],
  },
  {
    id: 'the second inverter behind a fuse, without a discharge of its own',
    change: ({ circuit, inverters }) => {
      if (inverters.length < 2) return undefined;
      const second = change(circuit, 'c-2', { nodes: ['c-2-p', 'ln'] });
      return add(second, fuse('fuse-inverter', ['lp', 'c-2-p']));
    },
    violates: ['discharge-unfused'],
  },
  {
    id: 'the discharge ahead of the disconnect',
    change: ({ circuit, discharge, ahead }) => {
      const [p, n] = ahead;
      return discharge === 'relay'
        ? change(change(circuit, 'k-dis', { nodes: [p, 'dr'] }), 'r-dis', { nodes: ['dr', n] })
        : change(circuit, 'r-dis', { nodes: [p, n] });
    },
    violates: lost,
  },
  {
    id: 'the discharge inside the container',
    change: ({ circuit, discharge, containers }) => {
      if (containers !== 'one') return undefined;
      const inside = { zone: 'container', container: 'main' };
      const [p, n] = terminalsOf(circuit);
      return discharge === 'relay'
        ? change(change(circuit, 'k-dis', { nodes: [p, 'dr'], ...inside }), 'r-dis', { nodes: ['dr', n], ...inside })
        : change(circuit, 'r-dis', { nodes: [p, n], ...inside });
    },
    violates: lost,
  },
  {
    id: 'the discharge on the container’s side of one plug only',
    change: ({ circuit, discharge, containers, plugs, disconnect }) => {
      if (containers !== 'one' || !plugs || disconnect !== 'negative') return undefined;
      return discharge === 'relay'
        ? change(circuit, 'k-dis', { nodes: ['tp', 'dr'] })
        : change(circuit, 'r-dis', { nodes: ['tp', 'ln'] });
    },
    // The plug is in the other pole than the disconnect, so only a container that leaves takes the discharge away.
    violates: (_, { containerLeaves }) => (containerLeaves ? lost : []),
  },
  {
    id: 'the disconnect in the discharge’s lead instead of the main path',
    change: (car) => {
      if (car.discharge !== 'relay' || !car.plugs || car.resistor === 'vehicle') return undefined;
      const [p, n] = car.ahead;
      const pole = car.disconnect === 'positive' ? ([p, 'lp'] as const) : ([n, 'ln'] as const);
      const joined = join(remove(car.circuit, 'hvd'), pole[0], pole[1]);
      const moved = change(joined, 'k-dis', { nodes: ['hd', 'dr'] });
      return add(moved, { id: 'hvd', kind: 'disconnect', nodes: ['lp', 'hd'], zone: 'vehicle', ratedVoltage: 1000 });
    },
    violates: ['disconnect-breaks-the-path', ...lost],
  },
  {
    id: 'too slow a discharge',
    change: ({ circuit, ohms }) =>
      // From three quarters to one and a half of the time allowed.
      change(circuit, 'r-dis', { resistance: about(2 * ohms.discharge, 0.05) }),
    violates: ['discharge-time'],
  },
  {
    id: 'a larger link than the discharge was made for',
    change: ({ circuit, farads }) => change(circuit, 'c-1', { capacitance: about(1.6 * farads, 0.1) }),
    violates: ['discharge-time'],
  },
  {
    id: 'a discharge resistor of a tenth of the power that it takes',
    change: (car) => weakDischarge(car, 0.1),
    // Its mass stands 15 s (P·15 s / (0.12·P) = 125 K above 60 °C), not for ever; beside it nothing is scorched in that time.
    violates: ({ discharge }, { permanentRating }) => [
      ...(permanentRating ? ['discharge-rating', 'discharge-surroundings'] : []),
      ...(discharge === 'permanent' ? ['permanent-load-rating'] : []),
    ],
  },
  {
    id: 'a discharge resistor of a small fraction of the power that it takes',
    change: (car) => weakDischarge(car, 0.005),
    violates: ({ discharge }) => [
      'discharge-rating',
      'discharge-repeats',
      'discharge-surroundings',
      ...(discharge === 'permanent' ? ['permanent-load-rating'] : []),
    ],
  },
  {
    id: 'a discharge resistor beside something that stands no heat',
    // Under way to its highest temperature of 250 °C at twice the power; computed, about 155 °C permanently.
    change: ({ circuit }) => changeIn(circuit, 'r-dis', 'surroundings', { limitTemperature: 61 }),
    violates: ['discharge-surroundings'],
  },
  {
    id: 'a discharge resistor screwed to the structure of the car, its heat not led away',
    change: ({ circuit, volts, ohms }) => {
      const mounted = change(circuit, 'r-dis', { mounting: 'structure' });
      // 400 K above ambient at the power that it takes.
      return changeIn(mounted, 'r-dis', 'thermal', {
        resistance: rounded(400 / (volts ** 2 / ohms.discharge)),
        capacitance: 5000,
      });
    },
    violates: ({ discharge }, { permanentRating }) => [
      ...(permanentRating ? ['discharge-rating', 'discharge-surroundings'] : []),
      ...(discharge === 'permanent' ? ['permanent-load-rating'] : []),
    ],
  },
  {
    id: 'a filter capacitor inside the container, on the vehicle’s side of its relays',
    change: ({ circuit, containers }) => {
      if (containers !== 'one') return undefined;
      const [p, n] = terminalsOf(circuit);
      return add(circuit, {
        id: 'c-filter',
        kind: 'capacitor',
        nodes: [p, n],
        zone: 'container',
        container: 'main',
        capacitance: about(20e-6, 0.1),
        esr: about(0.01, 0.2),
        ratedVoltage: 1000,
      });
    },
    // With the disconnect open only the energy meter is left to it: 20 µF · 47 kΩ · ln(U/60) is below 5 s. By then it falls apart
    // from the link that the points read.
    violates: ({ plugs }, { containerLeaves }) => [
      ...(containerLeaves && plugs ? lost : []),
      'measuring-points-see-the-link',
    ],
  },
  {
    id: 'a bleed resistor too weak for driving',
    change: ({ circuit, volts }) => {
      const bleed = resistor('bleed-weak', 'bleed', ['lp', 'ln'], rounded(volts ** 2 / 2), 5);
      return underrated(add(circuit, bleed), 'bleed-weak', 0.5);
    },
    // 2 W into 0.5 W; it loads the rise as well.
    violates: (car, book) => {
      const rise = riseFindings(divider(car.ohms.precharge, parallel([car.ohms.load, car.volts ** 2 / 2])), book);
      return rise && [...rise, 'permanent-load-rating'];
    },
  },
  {
    id: 'a discharge resistor that is a PTC',
    change: ({ circuit }) => change(circuit, 'r-dis', { technology: 'ptc' }),
    violates: ['no-ptc'],
  },
  harmless('a second discharge beside the sound one, switched by software', (car) =>
    switched(car, (circuit) =>
      add(
        opening(circuit, 'k-dis-2'),
        relay('k-dis-2', 'discharge-relay', ['lp', 'dr2'], {
          zone: 'vehicle',
          rest: 'closed',
          suppliedBy: 'controller',
          releaseTime: 0.02,
        }),
        { ...resistor('r-dis-2', 'discharge', ['dr2', 'ln'], car.ohms.discharge, 400) },
      ),
    ),
  ),
  harmless('a second, fused resistor beside the sound discharge', ({ circuit, ohms }) =>
    add(circuit, fuse('fuse-bleed', ['lp', 'bf'], { ratedCurrent: 2 }), {
      ...resistor('bleed-2', 'bleed', ['bf', 'ln'], rounded(200 * ohms.discharge), 20),
    }),
  ),
  harmless('one more voltmeter across the link', ({ circuit }) =>
    add(circuit, meter('display', 'other', ['lp', 'ln'], 3e6)),
  ),
];

/** The stated order of closing, with one contact more that it opens at its start. */
function opening(circuit: Circuit, id: string): Circuit {
  const stated = (circuit['control'] as Wire)['sequence'] as readonly Wire[] | undefined;
  const [start, ...rest] = stated ?? [];
  return start === undefined
    ? circuit
    : order(circuit, [{ ...start, open: [...(start['open'] as string[]), id] }, ...rest]);
}

/** The container's own terminals behind its two isolation relays. */
function terminalsOf(circuit: Circuit): readonly [string, string] {
  const end = (id: string) => circuit.elements.find((element) => element.id === id)!.nodes[1];
  return [end('air-pos'), end('air-neg')];
}
