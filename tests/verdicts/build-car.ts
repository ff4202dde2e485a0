import { about, DERATED, fuse, meter, OVERLOAD, plug, ratingFor, relay, resistor, rounded } from './parts.js';
import type { Circuit, Part, Wire } from './wire.js';
import type { Arrangement, Car } from './car.js';

interface Container {
  readonly name: string;
  readonly cells: readonly [string, string];
  readonly fused: string;
  readonly car: readonly [string, string];
}

/** A sound car of an arrangement, every field stated, its values worked from the books' bounds with a margin. */
export function buildCar(arrangement: Arrangement): Car {
  const { containers: kind, volts, pole, disconnect, plugs } = arrangement;
  const boxes: Container[] =
    kind === 'one'
      ? [{ name: 'main', cells: ['bp', 'bn'], fused: 'f', car: plugs ? ['tp', 'tn'] : ['tp', 'ln'] }]
      : (arrangement.exchanged ? ['right', 'left'] : ['left', 'right']).map((name) => ({
          name,
          cells: [`${name}-bp`, `${name}-bn`],
          fused: `${name}-f`,
          car: [`${name}-tp`, `${name}-tn`],
        }));
  const [box = never(), other = box] = boxes;
  // In series the second container is the lower one.
  const top = box;
  const bottom = kind === 'series' ? other : box;
  const home = pole === 'positive' ? top : bottom;
  const end = pole === 'positive' ? home.car[0] : home.car[1];
  const start = pole === 'positive' ? home.fused : home.cells[1];

  const farads = arrangement.inverters.reduce((sum, inverter) => sum + inverter.farads, 0);
  // 5 s less the relays' release; capacitors 10 % and the resistor 5 % above nominal; three quarters of what is allowed.
  const discharge = rounded((0.75 * 4.9) / (1.1 * 1.05 * farads * Math.log(volts / 60)));
  const load = parallel([
    47_000,
    2e6,
    ...(arrangement.insulation ? [4.8e6] : []),
    ...(arrangement.bleed ? [220_000] : []),
    ...(arrangement.discharge === 'permanent' ? [discharge] : []),
  ]);
  const precharge = rounded(Math.min(470, 0.015 * load));

  // Between the plugs and the disconnect; without plugs the relays’ own terminals.
  const ahead = plugs ? (disconnect === 'positive' ? (['cp', 'ln'] as const) : (['lp', 'cn'] as const)) : box.car;

  const elements: Part[] = boxes.flatMap((each) => containerParts(each, kind === 'series' ? volts / 2 : volts));
  const plugged: Part[] = [];
  const wire = (from: string, to: string, id: string, container: string) => {
    if (from === to) return;
    plugged.push(plug(id, container, [from, to]));
  };
  if (kind === 'series') {
    wire(top.car[0], ahead[0], `plug-${top.name}-pos`, top.name);
    wire(top.car[1], 'mid', `plug-${top.name}-neg`, top.name);
    wire(bottom.car[0], 'mid', `plug-${bottom.name}-pos`, bottom.name);
    wire(bottom.car[1], ahead[1], `plug-${bottom.name}-neg`, bottom.name);
  } else if (plugs) {
    for (const each of boxes) {
      const suffix = kind === 'one' ? '' : `-${each.name}`;
      wire(each.car[0], ahead[0], `plug${suffix}-pos`, each.name);
      wire(each.car[1], ahead[1], `plug${suffix}-neg`, each.name);
    }
  }
  elements.push(...plugged);

  const peak = volts / (0.95 * precharge);
  const prechargeWatts = ratingFor((1.5 * volts * peak) / (OVERLOAD.factor * DERATED));
  const outside = arrangement.resistor === 'vehicle';
  const branchEnd = outside ? (pole === 'positive' ? ahead[0] : ahead[1]) : end;
  elements.push(
    relay('k-pre', 'precharge-relay', [start, 'pr'], {
      container: home.name,
      auxiliary: 'guided',
      resistance: about(0.02, 0.2),
      operateTime: 0.015,
      releaseTime: 0.02,
      ratings: {
        dcVoltage: 1000,
        makingCurrent: rounded(1.5 * peak),
        breakingCurrent: rounded(1.5 * peak),
        carryingCurrent: rounded(1.5 * peak),
      },
    }),
    ...(outside ? [plug('plug-pre', home.name, ['pr', 'prx'])] : []),
    {
      ...resistor('r-pre', 'precharge', [outside ? 'prx' : 'pr', branchEnd], precharge, prechargeWatts),
      zone: outside ? 'vehicle' : 'container',
      ...(outside ? {} : { container: home.name }),
    },
    meter('energy-meter', 'energy-meter', [...ahead], 47_000),
    {
      id: 'hvd',
      kind: 'disconnect',
      nodes: disconnect === 'positive' ? ([ahead[0], 'lp'] as const) : ([ahead[1], 'ln'] as const),
      zone: 'vehicle',
      resistance: about(0.0002, 0.2),
      ratedVoltage: 1000,
    },
    ...arrangement.inverters.flatMap(({ farads: each, cable }, index) => {
      const node = cable === undefined ? 'lp' : `ip${String(index + 1)}`;
      return [
        ...(cable === undefined ? [] : [resistor(`cable-${String(index + 1)}`, 'other', ['lp', node], cable, 150)]),
        {
          id: `c-${String(index + 1)}`,
          kind: 'capacitor',
          nodes: [node, 'ln'] as const,
          zone: 'vehicle' as const,
          capacitance: about(each, 0.1),
          ...(arrangement.esr ? { esr: about(0.003, 0.2) } : {}),
          ratedVoltage: rounded(1.25 * volts),
        },
      ];
    }),
    meter('link-sense', 'voltage-sense', ['lp', 'ln'], 2e6),
    ...(arrangement.insulation
      ? [
          meter('insulation-pos', 'insulation-monitor', ['lp', 'ch'], 2.4e6),
          meter('insulation-neg', 'insulation-monitor', ['ln', 'ch'], 2.4e6),
        ]
      : []),
    ...(arrangement.bleed ? [resistor('bleed', 'bleed', ['lp', 'ln'], 220_000, 10)] : []),
    ...(arrangement.converter
      ? [
          {
            id: 'converter',
            kind: 'load',
            nodes: ['lp', 'ln'] as const,
            zone: 'vehicle' as const,
            power: about(300, 0.1),
            startsAbove: 0.6 * volts,
            stopsBelow: 0.55 * volts,
            activeIn: ['drive'],
          },
        ]
      : []),
    ...(arrangement.discharge === 'relay'
      ? [
          relay('k-dis', 'discharge-relay', ['lp', 'dr'], {
            zone: 'vehicle',
            rest: 'closed',
            auxiliary: 'none',
            auxiliaryContact: undefined,
            resistance: about(0.02, 0.2),
            releaseTime: 0.02,
          }),
        ]
      : []),
    resistor(
      'r-dis',
      'discharge',
      [arrangement.discharge === 'relay' ? 'dr' : 'lp', 'ln'],
      discharge,
      ratingFor((2 * volts ** 2) / (0.95 * discharge) / DERATED),
    ),
    resistor('r-mp', 'body-protection', ['lp', 'mp'], protection(volts), 20),
    resistor('r-mn', 'body-protection', ['ln', 'mn'], protection(volts), 20),
  );

  const relays = boxes.flatMap(({ name }) => [relayId(kind, name, 'pos'), relayId(kind, name, 'neg')]);
  const sign = pole === 'positive' ? 'pos' : 'neg';
  const opposite = pole === 'positive' ? 'neg' : 'pos';
  const bridged = relayId(kind, home.name, sign);
  const last = kind === 'parallel' ? relays.filter((id) => id.endsWith(sign)) : [bridged];
  // The container that its indicator is not about, so that a relay taken away there leaves the indicator alone.
  const lone = kind === 'one' ? box : other;
  const first = {
    id: relayId(kind, lone.name, kind === 'series' ? 'pos' : opposite),
    cell: kind === 'series' || opposite === 'pos' ? lone.fused : lone.cells[1],
    car: kind === 'series' || opposite === 'pos' ? lone.car[0] : lone.car[1],
  };

  const sequence = [
    {
      at: 0,
      close: [...relays.filter((id) => !last.includes(id)), 'k-pre'],
      ...(arrangement.discharge === 'relay' ? { open: ['k-dis'] } : {}),
    },
    { when: { linkRatio: 0.96 }, close: [...last] },
    { after: 0.2, open: ['k-pre'] },
    { after: 10, release: true },
  ];
  const circuit: Circuit = clean({
    title: arrangement.name,
    elements,
    link: ['lp', 'ln'],
    measuringPoints: { positive: 'mp', negative: 'mn' },
    ...(arrangement.insulation ? { chassis: 'ch' } : {}),
    operatingCurrent: 110,
    control: {
      ...(arrangement.stated ? { sequence } : {}),
      precharge: {
        method: 'voltage-comparison',
        threshold: 0.96,
        comparisonError: 0.005,
        reference: 'measured',
        accumulatorSense: [top.fused, bottom.cells[1]],
        linkSense: ['lp', 'ln'],
        timeout: 3,
        attempts: 1,
        retryInterval: 10,
        minimumRestartInterval: 10,
      },
    },
    indicator: { watches: [...relays, 'k-pre'].sort(), senses: [[...ahead], ['lp', 'ln']] },
    containerIndicator: { senses: [...box.car] },
    ...(boxes.length > 1
      ? { containerIndicators: boxes.filter((each) => each !== box).map((each) => ({ senses: [...each.car] })) }
      : {}),
    ambient: { max: 45 },
  }) as Circuit;
  return {
    ...arrangement,
    circuit,
    relays,
    last: [bridged, ...last.filter((id) => id !== bridged)],
    first,
    branch: { from: start, to: branchEnd },
    terminals: [top.car[0], bottom.car[1]],
    ahead,
    fuses: boxes.map(({ name }) => (kind === 'one' ? 'main-fuse' : `fuse-${name}`)),
    cells: [box.fused, box.cells[1]],
    ohms: { precharge, discharge, load },
    farads,
  };

  function containerParts({ name, cells, fused, car }: Container, full: number): Part[] {
    const one = kind === 'one';
    return [
      {
        id: one ? 'pack' : `pack-${name}`,
        kind: 'accumulator',
        nodes: [cells[0], cells[1]],
        zone: 'container',
        container: name,
        voltage: { min: rounded(0.72 * full), nominal: rounded(0.88 * full), max: full },
        resistance: about(0.0008 * full, 0.15),
      },
      fuse(one ? 'main-fuse' : `fuse-${name}`, [cells[0], fused], { zone: 'container', container: name }),
      ...(one
        ? [
            {
              ...meter('pack-sense', 'voltage-sense', [fused, cells[1]], 2e6),
              zone: 'container' as const,
              container: name,
            },
          ]
        : []),
      relay(relayId(kind, name, 'pos'), 'isolation-relay', [fused, car[0]], { container: name }),
      relay(relayId(kind, name, 'neg'), 'isolation-relay', [cells[1], car[1]], { container: name }),
    ];
  }
}

function relayId(kind: Arrangement['containers'], container: string, sign: string): string {
  return kind === 'one' ? `air-${sign}` : `air-${container}-${sign}`;
}

/** 5, 10 or 15 kΩ up to 200, 400 or 600 V (the books’ table of body-protection resistors). */
function protection(volts: number): number {
  return volts <= 200 ? 5000 : volts <= 400 ? 10_000 : 15_000;
}

/** Ω of resistances side by side. */
export function parallel(ohms: readonly number[]): number {
  return 1 / ohms.reduce((sum, each) => sum + 1 / each, 0);
}

function never(): never {
  throw new Error('an arrangement has a container');
}

function clean(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(clean);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value as Wire)
      .filter(([, field]) => field !== undefined)
      .map(([name, field]) => [name, clean(field)]),
  );
}
