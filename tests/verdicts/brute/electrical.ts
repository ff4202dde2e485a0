import type { Labelled } from '../labelled-set.js';
import type { Circuit, Part, Wire } from '../wire.js';
import { solve } from './dense.js';
import { type Separation, separations } from './separations.js';
import { stepped } from './stepped.js';
import { afterRelease, type BruteRule, highest, whileRising } from './topological.js';
import { ofKind, ohmsOf, prechargeControl, type View, wired } from './wired.js';

/** V and s of the books that are judged: 60 V within 5 s (EV 6.1.5, EV.7.2.2). */
const LIMIT = 60;
const TIME = 5;

/** Of a fall: the implicit method errs by half a step, 8 ms of 5 s, and labels are farther from their bounds. */
const STEPS = 300;

const isPrecharge = (part: Part) => part['role'] === 'precharge';
export const isDischarge = (part: Part) => part['role'] === 'discharge';

/** The slowest rise and its lowest end: source side and capacitors at their largest, all that draws current at its strongest. */
const slowest = (part: Part): 'min' | 'max' =>
  (part.kind === 'resistor' && !isPrecharge(part)) || part.kind === 'meter' ? 'min' : 'max';

export function steadyRatio({ circuit, car }: Labelled): number {
  const closed = (part: Part) => whileRising({ circuit, car }, part);
  const loaded = solve(wired(circuit, { closed, sources: 'min', end: slowest, loads: true }));
  const full = solve(wired(circuit, { closed: () => true, sources: 'min', end: slowest }));
  return Math.abs(loaded.between(...circuit.link) ?? 0) / full.between(...circuit.link)!;
}

const prechargeReachesThreshold: BruteRule = (labelled) => steadyRatio(labelled) <= labelled.book.level;

const prechargeReachesSetting: BruteRule = (labelled) => {
  const { method, threshold, comparisonError } = prechargeControl(labelled.circuit) as Record<string, number>;
  return String(method) !== 'timer' && steadyRatio(labelled) <= threshold! + comparisonError!;
};

/** Stepped through, 300 steps to a time constant. */
const prechargeCompletesInTime: BruteRule = (labelled) => {
  const { circuit, car } = labelled;
  const { method, threshold, timeout } = prechargeControl(circuit) as Record<string, number>;
  if (String(method) === 'timer') return false;
  if (steadyRatio(labelled) <= threshold!) return true;
  const full = solve(wired(circuit, { closed: () => true, sources: 'min', end: slowest })).between(...circuit.link)!;
  const step = slowestTimeConstant(circuit) / 300;
  const view = { closed: (part: Part) => whileRising({ circuit, car }, part), sources: 'min', end: slowest } as const;
  for (const { time, solved } of stepped(circuit, view, () => 0, { step, steps: Math.ceil(timeout! / step) })) {
    if (Math.abs(solved.between(...circuit.link) ?? 0) >= threshold! * full) return time >= timeout!;
  }
  return true;
};

/** The comparison is deceived where, the two sensed voltages compared, it is satisfied with a capacitor still empty. */
const prechargeComparesVoltages: BruteRule = (labelled) => {
  const { circuit, book, car } = labelled;
  const { method, reference, delay, linkSense, accumulatorSense, threshold } = prechargeControl(circuit) as {
    method: string;
    reference: string;
    delay: number;
    linkSense: [string, string];
    accumulatorSense: [string, string];
    threshold: number;
  };
  if (method === 'timer') return !book.timerAllowed || delay < timerNeeded(labelled);
  if (reference === 'fixed') return true;
  const stores = ofKind(circuit, 'capacitor');
  const full = highest(circuit);
  // Seen the way a relay's contact sees it: capacitors at 0, 5, … 90 % of the voltage, or cut off and empty while the rest is full.
  // A car whose container has gone with its cells has nothing to compare with, and nothing to close onto.
  const present = separations(circuit, book).filter((state) => !ofKind(circuit, 'accumulator').some(state.gone));
  return present.some((state) => {
    const closed = (part: Part) => whileRising({ circuit, car }, part) && !state.parted(part);
    for (const share of [0, 0.25, 0.5, 0.75, Math.min(book.level, threshold) - 0.02]) {
      const charged = new Map(stores.map(({ id }) => [id, share * full]));
      const solved = solve(wired(circuit, { closed, gone: state.gone, sources: 'max', charged }));
      const sensed = Math.abs(solved.between(...linkSense) ?? 0);
      const against = solved.between(...accumulatorSense);
      // Leads that end on nothing are no comparison.
      if (against === undefined || stores.every((part) => state.gone(part))) continue;
      if (sensed >= threshold * Math.abs(against)) return true;
    }
    return false;
  });
};

/** EV.5.6.2 of 2024: the longer of twice the time to 90 % and that time plus 0.5 s; one time constant, textbook. */
function timerNeeded(labelled: Labelled): number {
  const end = steadyRatio(labelled);
  if (end <= 0.9) return Infinity;
  const time = slowestTimeConstant(labelled.circuit) * -Math.log(1 - 0.9 / end);
  return Math.max(2 * time, time + 0.5);
}

/** s; the pre-charge resistance and the capacitors at their largest, loads left out. */
function slowestTimeConstant(circuit: Circuit): number {
  const ohms = ofKind(circuit, 'resistor')
    .filter(isPrecharge)
    .reduce((sum, part) => sum + ohmsOf(part['resistance'], 'max'), 0);
  return ohms * ofKind(circuit, 'capacitor').reduce((sum, part) => sum + ohmsOf(part['capacitance'], 'max'), 0);
}

interface Fallen {
  readonly state: Separation;
  readonly capacitor: Part;
  /** V left at the time limit, counted from the opening of the shutdown circuit. */
  readonly left: number;
}

const fallen = new WeakMap<Labelled, readonly Fallen[]>();

function falls(labelled: Labelled): readonly Fallen[] {
  const known = fallen.get(labelled) ?? fallsWithout(labelled, () => false);
  fallen.set(labelled, known);
  return known;
}

/** Every capacitor from the highest voltage, everything that discharges it at its weakest, some parts taken out. */
function fallsWithout({ circuit, book }: Labelled, cut: (part: Part) => boolean): readonly Fallen[] {
  const volts = highest(circuit);
  const release = 0.03;
  return separations(circuit, book)
    .filter(({ required }) => required)
    .flatMap((state) => {
      const view: Omit<View, 'charged'> = {
        closed: (part) => afterRelease(part) && !state.parted(part),
        gone: (part) => state.gone(part) || cut(part),
        sources: 'max',
        end: () => 'max',
      };
      let last: ReadonlyMap<string, number> = new Map();
      const step = (TIME - release) / STEPS;
      for (const instant of stepped(circuit, view, () => volts, { step, steps: STEPS })) last = instant.capacitors;
      return ofKind(circuit, 'capacitor')
        .filter((part) => last.has(part.id))
        .map((capacitor) => ({ state, capacitor, left: Math.abs(last.get(capacitor.id)!) }));
    });
}

const dischargeTime: BruteRule = (labelled) => falls(labelled).some(({ left }) => left >= LIMIT);

/** Coulombs that the discharge resistors take from one capacitor, charged alone. */
function dischargedBy(circuit: Circuit, state: Separation, store: Part): number {
  const view = {
    closed: (part: Part) => afterRelease(part) && !state.parted(part),
    gone: state.gone,
  };
  const step = 0.02;
  let taken = 0;
  for (const { solved, branches } of stepped(circuit, view, (part) => (part === store ? 100 : 0), {
    step,
    steps: 50,
  })) {
    for (const part of circuit.elements.filter(isDischarge)) {
      const branch = branches.find(({ id }) => id === part.id)!;
      taken += step * Math.abs(solved.current(branch));
    }
  }
  return taken;
}

const dischargeStaysWithCar: BruteRule = (labelled) => {
  const { circuit, book } = labelled;
  const [whole] = separations(circuit, book);
  return falls(labelled).some(
    ({ state, capacitor, left }) =>
      state.name !== whole!.name &&
      left >= LIMIT &&
      dischargedBy(circuit, whole!, capacitor) > 1e-6 &&
      dischargedBy(circuit, state, capacitor) < 1e-9,
  );
};

const dischargeUnfused: BruteRule = (labelled) =>
  !dischargeTime(labelled) && fallsWithout(labelled, ({ kind }) => kind === 'fuse').some(({ left }) => left >= LIMIT);

/** Threshold less its error against the book's level. */
const prechargeSetting: BruteRule = ({ circuit, book }) => {
  const { method, threshold, comparisonError } = prechargeControl(circuit) as Record<string, number>;
  return String(method) !== 'timer' && threshold! - comparisonError! < book.level - 1e-9;
};

/** A relay of the accumulator that something else than the shutdown circuit feeds. */
const prechargeSupply: BruteRule = ({ circuit }) =>
  ofKind(circuit, 'contact').some(
    (part: Wire) =>
      part['suppliedBy'] === 'independent' && ['isolation-relay', 'precharge-relay'].includes(part['role'] as string),
  );

export const electricalRules: Readonly<Record<string, BruteRule>> = {
  'precharge-reaches-threshold': prechargeReachesThreshold,
  'precharge-reaches-setting': prechargeReachesSetting,
  'precharge-completes-in-time': prechargeCompletesInTime,
  'precharge-compares-voltages': prechargeComparesVoltages,
  'precharge-setting': prechargeSetting,
  'precharge-supply': prechargeSupply,
  'discharge-time': dischargeTime,
  'discharge-stays-with-car': dischargeStaysWithCar,
  'discharge-unfused': dischargeUnfused,
};
