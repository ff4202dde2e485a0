import type { Labelled } from '../labelled-set.js';
import type { Circuit, Part } from '../wire.js';
import { solve } from './dense.js';
import { isDischarge, steadyRatio } from './electrical.js';
import { afterRelease, type BruteRule, highest, isIsolation, whileDriving, whileRising } from './topological.js';
import { ofKind, ohmsOf, prechargeControl, wired } from './wired.js';

/** W that a resistor stands for ever, by its derating line, or by its own heat where it is mounted on something of the car's. */
function stands(part: Part): number {
  const { power, fullPowerUpTo, zeroPowerAt } = part['ratings'] as Record<string, number>;
  const { resistance, maxTemperature } = part['thermal'] as Record<string, number>;
  const ambient = part['ambientMax'] as number;
  if (part['mounting'] === 'structure') return Math.min(power!, (maxTemperature! - ambient) / resistance!);
  return power! * Math.min(1, (zeroPowerAt! - ambient) / (zeroPowerAt! - fullPowerUpTo!));
}

/** W in a resistor with the highest voltage held on every capacitor; itself at its smallest. */
function heldPower(circuit: Circuit, part: Part, closed: (part: Part) => boolean): number {
  const volts = highest(circuit);
  const charged = new Map(ofKind(circuit, 'capacitor').map(({ id }) => [id, volts]));
  const solved = solve(wired(circuit, { closed, charged, end: () => 'min' }));
  const across = solved.between(...part.nodes) ?? 0;
  return across ** 2 / ohmsOf(part['resistance'], 'min');
}

const dischargeRating: BruteRule = ({ circuit, book }) =>
  circuit.elements.filter(isDischarge).some((part) => {
    const watts = heldPower(circuit, part, (each) => (each['role'] === 'discharge-relay' ? true : afterRelease(each)));
    if (watts <= stands(part)) return false;
    if (book.permanentRating) return true;
    // A single mass for 15 s: T = Ta + P·R·(1 − e^(−t/RC)), textbook.
    const { resistance, capacitance, maxTemperature } = part['thermal'] as Record<string, number>;
    const rise = watts * resistance! * -Math.expm1(-15 / (resistance! * capacitance!));
    return (part['ambientMax'] as number) + rise > maxTemperature!;
  });

const permanentLoadRating: BruteRule = ({ circuit }) =>
  ofKind(circuit, 'resistor').some((part) => {
    const watts = heldPower(circuit, part, whileDriving);
    return watts > 0.02 && part['thermal'] !== undefined && watts > stands(part);
  });

/** What each relay makes, breaks, carries and switches, against its ratings. */
const relayRatings: BruteRule = ({ circuit, car }) => {
  const volts = highest(circuit);
  const closed = (part: Part) => whileRising({ circuit, car }, part);
  const empty = new Map(ofKind(circuit, 'capacitor').map(({ id }) => [id, 0]));
  const start = wired(circuit, { closed, sources: 'max', charged: empty, end: () => 'min' });
  const { threshold } = prechargeControl(circuit) as Record<string, number>;
  const share = chargedAtTheLastClosing({ circuit, car }) ?? threshold!;
  if (Number.isNaN(share)) return undefined;
  const nearly = new Map(ofKind(circuit, 'capacitor').map(({ id }) => [id, share * volts]));
  const second = wired(circuit, {
    closed: (part) => closed(part) || car.last.includes(part.id),
    sources: 'max',
    charged: nearly,
    end: () => 'min',
  });
  const amperes = (branches: typeof start, id: string) =>
    Math.abs(solve(branches).current(branches.find((branch) => branch.id === id)!));
  const operating = circuit['operatingCurrent'] as number;
  const never = share > 0 && steadyRatio({ circuit, car } as Labelled) <= share;
  return ofKind(circuit, 'contact').some((part) => {
    const isolates = isIsolation(part);
    if (!isolates && part['role'] !== 'precharge-relay') return false;
    const rated = part['ratings'] as Record<string, number>;
    const peak = amperes(start, part.id);
    if (volts > rated['dcVoltage']!) return true;
    if (!isolates) {
      return [rated['makingCurrent']!, rated['breakingCurrent']!, rated['carryingCurrent']!].some(
        (each) => peak > each,
      );
    }
    const last = car.last.includes(part.id);
    const makes = last ? (never ? 0 : amperes(second, part.id)) : peak;
    const fuses = ofKind(circuit, 'fuse').filter(
      (each) => each.zone === 'container' && each['container'] === part['container'],
    );
    const carried = Math.max(operating, ...fuses.map((each) => each['ratedCurrent'] as number));
    return (
      makes > rated['makingCurrent']! || operating > rated['breakingCurrent']! || carried > rated['carryingCurrent']!
    );
  });
};

interface Step {
  readonly close?: readonly string[];
  readonly open?: readonly string[];
  readonly when?: { readonly linkRatio: number };
}

/** The share at which a stated order closes the last relay; undefined: the comparison's; not a number: more than a look at the order tells. */
function chargedAtTheLastClosing({ circuit, car }: Pick<Labelled, 'circuit' | 'car'>): number | undefined {
  if (prechargeControl(circuit)['method'] === 'timer') return Number.NaN;
  const steps = (circuit['control'] as { readonly sequence?: readonly Step[] }).sequence;
  const place = steps?.findIndex(({ close }) => close?.some((id) => car.last.includes(id))) ?? -1;
  const step = steps?.[place];
  if (step === undefined) return undefined;
  if (place === 0) return step.close?.includes('k-pre') ? 0 : Number.NaN;
  if (steps?.slice(0, place).some(({ open }) => open?.includes('k-pre'))) return Number.NaN;
  return step.when?.linkRatio;
}

/** (U/2)²/R in each measuring point's resistor, and its value from the books' table; nothing else may touch the point. */
const measuringPoints: BruteRule = ({ circuit }) => {
  const volts = highest(circuit);
  if (volts > 600 + 1e-6) return undefined;
  const wanted = volts <= 200 + 1e-6 ? 5000 : volts <= 400 + 1e-6 ? 10_000 : 15_000;
  const { positive, negative } = circuit['measuringPoints'] as Record<string, string>;
  return [positive!, negative!].some((point) => {
    const touching = circuit.elements.filter(({ nodes }) => nodes.includes(point));
    const [only] = touching;
    if (touching.length !== 1 || only?.kind !== 'resistor') return true;
    const ohms = ohmsOf(only['resistance'], 'nominal');
    return (
      Math.abs(ohms - wanted) > 0.05 * wanted || (volts / 2) ** 2 / ohmsOf(only['resistance'], 'min') > stands(only)
    );
  });
};

/** A short from behind each main fuse to the other end of its container’s cells, every contact open. */
const fuseBreakingCurrent: BruteRule = ({ circuit, car }) => {
  const cells = ofKind(circuit, 'accumulator');
  const fuses = ofKind(circuit, 'fuse').filter(({ id }) => car.fuses.includes(id));
  if (fuses.length === 0) return undefined;
  return fuses.some((fuse) => {
    const own = cells.find(({ container }) => container === fuse['container']);
    if (own === undefined) return false;
    const [near, far] = own.nodes.includes(fuse.nodes[0]) ? fuse.nodes : [fuse.nodes[1], fuse.nodes[0]];
    const other = own.nodes[0] === near ? own.nodes[1] : own.nodes[0];
    const branches = wired(circuit, { closed: () => false, sources: 'max', end: () => 'min', leakage: false });
    const solved = solve([...branches, { id: 'short', a: far, b: other, siemens: 1e6, volts: 0 }]);
    return Math.abs(solved.current(branches.find(({ id }) => id === fuse.id)!)) > (fuse['breakingCurrent'] as number);
  });
};

export const ratingRules: Readonly<Record<string, BruteRule>> = {
  'discharge-rating': dischargeRating,
  'permanent-load-rating': permanentLoadRating,
  'relay-ratings': relayRatings,
  'measuring-points': measuringPoints,
  'fuse-breaking-current': fuseBreakingCurrent,
};
