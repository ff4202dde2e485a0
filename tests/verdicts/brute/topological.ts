import type { Book } from '../books.js';
import type { Labelled } from '../labelled-set.js';
import { add, type Circuit, type Part } from '../wire.js';
import { type Branch, resistanceBetween, solve } from './dense.js';
import { separations } from './separations.js';
import { stepped } from './stepped.js';
import { contactStates, ofKind, ohmsOf, wired } from './wired.js';

/** Ω/V that count as isolated (EV 1.2.1 of Formula Student), and with them the current that any voltage then drives. */
const PER_VOLT = 500;
const ISOLATED_CURRENT = 1 / PER_VOLT;

export type Verdict = boolean | undefined;
export type BruteRule = (labelled: Labelled) => Verdict;

export const isIsolation = (part: Part) => part['role'] === 'isolation-relay';
const homeOf = (part: Part) => (part['container'] as string | undefined) ?? 'main';

/** The highest voltage that every contact closed puts on the link. */
export function highest(circuit: Circuit): number {
  const branches = wired(circuit, { closed: () => true, sources: 'max', end: () => 'min' });
  return Math.abs(solve(branches).between(...circuit.link) ?? 0);
}

interface Pole {
  readonly container: string;
  readonly node: string;
}

function poles(circuit: Circuit): readonly Pole[] {
  return ofKind(circuit, 'accumulator').flatMap((part) =>
    part.nodes.map((node) => ({ container: homeOf(part), node })),
  );
}

function outsideNodes(circuit: Circuit, container: string): readonly string[] {
  const outside = circuit.elements.filter((part) => part.zone === 'vehicle' || homeOf(part) !== container);
  return [...new Set(outside.flatMap(({ nodes }) => nodes))];
}

const uncutPoles = new WeakMap<Circuit, boolean>();

const isolationBothPoles: BruteRule = ({ circuit }) => {
  const known = uncutPoles.get(circuit) ?? reachesOutside(circuit);
  uncutPoles.set(circuit, known);
  return known;
};

/** With what cuts properly open, and every state of every other contact: does a pole reach a node outside? */
function reachesOutside(circuit: Circuit): boolean {
  const isolated = PER_VOLT * highest(circuit);
  return poles(circuit).some(({ container, node }) => {
    const cuts = (part: Part) =>
      part.zone === 'container' &&
      homeOf(part) === container &&
      part['rest'] === 'open' &&
      part['construction'] === 'electromechanical' &&
      (isIsolation(part) || part['role'] === 'precharge-relay');
    const others = ofKind(circuit, 'contact').filter((part) => !cuts(part));
    return [...contactStates(others)].some((closed) => {
      const branches = wired(circuit, {
        closed: (part) => (part.kind === 'contact' ? closed.has(part.id) : true),
        end: () => 'min',
        leakage: false,
      });
      return outsideNodes(circuit, container).some((end) => resistanceBetween(branches, node, end) < isolated);
    });
  });
}

/** With every contact at rest: less than 500 Ω/V from a pole to a node outside. */
const noUnswitchedVoltageOutside: BruteRule = ({ circuit }) => {
  const isolated = PER_VOLT * highest(circuit);
  const branches = wired(circuit, {
    closed: (part) => part.kind !== 'contact' || part['rest'] === 'closed',
    end: () => 'min',
  });
  return poles(circuit).some(({ container, node }) =>
    outsideNodes(circuit, container).some((end) => resistanceBetween(branches, node, end) < isolated),
  );
};

/** What the accumulators drive through a shorted link, from its open voltage and its resistance. */
function shortCurrent(circuit: Circuit, closed: (part: Part) => boolean): number {
  const live = wired(circuit, { closed, sources: 'max', end: () => 'min' });
  const volts = solve(live).between(...circuit.link);
  if (volts === undefined) return 0;
  // Below this the voltage is the rounding of a dense solution.
  return Math.abs(volts) < 1e-6 ? 0 : Math.abs(volts) / resistanceBetween(live, ...circuit.link);
}

const disconnectBreaksThePath: BruteRule = ({ circuit }) =>
  shortCurrent(circuit, (part) => part.kind !== 'disconnect') > ISOLATED_CURRENT;

/** The pre-charge relay and the last relays open, and every state of every other contact: does anything charge the link? */
const prechargeThroughRelay: BruteRule = ({ circuit, car }) => {
  const kept = (part: Part) => part['role'] === 'precharge-relay' || car.last.includes(part.id);
  const others = ofKind(circuit, 'contact').filter((part) => !kept(part));
  return [...contactStates(others)].some(
    (closed) =>
      shortCurrent(circuit, (part) => (part.kind === 'contact' ? closed.has(part.id) : true)) > ISOLATED_CURRENT,
  );
};

/** Driving: isolation relays and every other energised contact as the shutdown circuit moves them, the pre-charge relay open again. */
export function whileDriving(part: Part): boolean {
  if (part.kind !== 'contact') return true;
  if (part['role'] === 'precharge-relay') return false;
  if (isIsolation(part)) return true;
  return part['suppliedBy'] === 'independent' ? part['rest'] === 'closed' : part['rest'] === 'open';
}

/** A motor's current drawn at the link and at every inverter's capacitor, by a load of 10 Ω at each. */
function motors(circuit: Circuit): readonly Branch[] {
  const ends = [circuit.link, ...ofKind(circuit, 'capacitor').map(({ nodes }) => nodes)];
  return ends.map(([a, b], index) => ({ id: `motor-${String(index)}`, a, b, siemens: 0.1, volts: 0 }));
}

/** Each container's own fuse carries the motor's current, and blows below what its relays break, where the book asks. */
const mainFuse: BruteRule = ({ circuit, book }) => {
  const branches = [...wired(circuit, { closed: whileDriving, sources: 'nominal' }), ...motors(circuit)];
  const solved = solve(branches);
  return ofKind(circuit, 'accumulator').some((pack) => {
    const container = homeOf(pack);
    const own = ofKind(circuit, 'fuse').filter((part) => {
      const branch = branches.find(({ id }) => id === part.id)!;
      return part.zone === 'container' && homeOf(part) === container && Math.abs(solved.current(branch)) > 1;
    });
    const relays = ofKind(circuit, 'contact').filter((part) => isIsolation(part) && homeOf(part) === container);
    const breaking = relays.map((part) => (part['ratings'] as Record<string, number>)['breakingCurrent']!);
    const large = own.some((part) => breaking.some((amperes) => (part['ratedCurrent'] as number) >= amperes));
    return own.length === 0 || (book.fuseBelowRelay && large);
  });
};

/** A fuse that carries the rise at its start but not the motor's current later. */
const prechargeUnfused: BruteRule = ({ circuit, car, book }) => {
  if (book.silent.includes('precharge-unfused')) return false;
  const empty = new Map(ofKind(circuit, 'capacitor').map(({ id }) => [id, 0]));
  const rising = wired(circuit, {
    closed: (part) => whileRising({ circuit, car }, part),
    sources: 'nominal',
    charged: empty,
  });
  const driving = [...wired(circuit, { closed: whileDriving, sources: 'nominal' }), ...motors(circuit)];
  const amperes = (branches: readonly Branch[], id: string) =>
    Math.abs(solve(branches).current(branches.find((branch) => branch.id === id)!));
  return ofKind(circuit, 'fuse').some(({ id }) => amperes(rising, id) > 1e-3 && amperes(driving, id) < 1e-3);
};

/** Rising: all isolation relays but the last, the pre-charge relay, and the rest as the order says or the shutdown circuit moves them. */
export function whileRising({ circuit, car }: Pick<Labelled, 'circuit' | 'car'>, part: Part): boolean {
  if (part.kind !== 'contact') return true;
  if (car.last.includes(part.id)) return false;
  if (isIsolation(part) || part['role'] === 'precharge-relay' || car.relays.includes(part.id)) return true;
  const steps = (circuit['control'] as { sequence?: ReadonlyArray<{ open?: string[]; close?: string[] }> }).sequence;
  const atRest = part['rest'] === 'closed';
  if (steps !== undefined) {
    if (steps[0]?.open?.includes(part.id)) return false;
    return steps[0]?.close?.includes(part.id) ? true : atRest;
  }
  return part['suppliedBy'] === 'independent' ? atRest : !atRest;
}

/** A voltmeter of 10 MΩ at the points, every capacitor charged to the highest voltage, for 10 s in every state of separation. */
const measuringPointsSeeTheLink: BruteRule = ({ circuit, book }) => {
  const points = circuit['measuringPoints'] as { positive: string; negative: string };
  const volts = highest(circuit);
  const voltmeter: Part = {
    id: 'voltmeter',
    kind: 'meter',
    zone: 'vehicle',
    nodes: [points.positive, points.negative],
    resistance: 1e7,
  };
  const measured = add(circuit, voltmeter);
  return separations(circuit, book).some((state) => {
    const view = {
      closed: (part: Part) => afterRelease(part) && !state.parted(part),
      gone: state.gone,
      sources: 'max' as const,
    };
    const stores = ofKind(circuit, 'capacitor').filter((part) => !state.gone(part));
    for (const { solved } of stepped(measured, view, () => volts, { step: 0.05, steps: 200 })) {
      const reading = Math.abs(solved.between(...voltmeter.nodes) ?? 0);
      const misread = ({ nodes }: Part): boolean => {
        const actual = Math.abs(solved.between(...nodes) ?? 0);
        return actual > 60 && Math.abs(reading - actual) > 0.05 * actual;
      };
      if (stores.some(misread)) return true;
    }
    return false;
  });
};

/** At rest; but a contact of the discharge that something else than the shutdown circuit feeds is not relied upon, and others stay as they were. */
export function afterRelease(part: Part): boolean {
  if (part.kind !== 'contact') return true;
  const own = part['suppliedBy'];
  if (part['role'] === 'discharge-relay') {
    return part['rest'] === 'closed' && own === 'shutdown-circuit';
  }
  return own === 'independent' ? part['rest'] === 'open' : part['rest'] === 'closed';
}

/** Everything apart and the link charged: some pair of sense leads must show it. */
const indicatorSeesVoltage: BruteRule = ({ circuit, book }) => {
  if (book.silent.includes('indicator-sees-voltage')) return false;
  const senses = (circuit['indicator'] as { senses: ReadonlyArray<[string, string]> }).senses;
  const charged = new Map(ofKind(circuit, 'capacitor').map(({ id }) => [id, 100]));
  const solved = solve(wired(circuit, { closed: (part) => part.kind === 'contact' && afterRelease(part), charged }));
  const link = Math.abs(solved.between(...circuit.link)!);
  return !senses.some(([a, b]) => Math.abs(solved.between(a, b) ?? 0) > 0.9 * link);
};

/** Dark with the relays open, lit with them closed although every plug and disconnect is pulled. Not asked where a pole has no relay. */
type Sensing = { readonly senses: readonly [string, string] };

const containerIndicator: BruteRule = ({ circuit, book }) => {
  const all = [circuit['containerIndicator'], ...((circuit['containerIndicators'] as unknown[] | undefined) ?? [])];
  return all.map((each) => (each as Sensing).senses).some((pair) => misplaced(circuit, book, pair) === true)
    ? true
    : misplaced(circuit, book, (all[0] as Sensing).senses);
};

/** Lit at rest, or dark with every isolation relay closed. */
function misplaced(circuit: Circuit, book: Book, [a, b]: readonly [string, string]): Verdict {
  const reads = (closed: (part: Part) => boolean) =>
    Math.abs(solve(wired(circuit, { closed, sources: 'nominal' })).between(a, b) ?? 0);
  if (isolationBothPoles({ circuit, book } as Labelled)) return undefined;
  const least = Math.min(...ofKind(circuit, 'accumulator').map((part) => ohmsOf(part['voltage'], 'nominal')));
  const dark = reads((part) => part.kind !== 'contact' || part['rest'] === 'closed') < 0.1 * least;
  const lit = reads((part) => isIsolation(part)) > 0.9 * least;
  return !(dark && lit);
}

const highestVoltage: BruteRule = ({ circuit }) => highest(circuit) > 600 + 1e-6;

export const topologicalRules: Readonly<Record<string, BruteRule>> = {
  'isolation-both-poles': isolationBothPoles,
  'no-unswitched-voltage-outside': noUnswitchedVoltageOutside,
  'disconnect-breaks-the-path': disconnectBreaksThePath,
  'precharge-through-relay': prechargeThroughRelay,
  'main-fuse': mainFuse,
  'precharge-unfused': prechargeUnfused,
  'measuring-points-see-the-link': measuringPointsSeeTheLink,
  'indicator-sees-voltage': indicatorSeesVoltage,
  'container-indicator': containerIndicator,
  'highest-voltage': highestVoltage,
};
