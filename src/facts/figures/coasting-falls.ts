import { conductsAt } from '../../circuit/conducts-at.js';
import { reachable } from '../../circuit/graph.js';
import { boundsOf, type Direction } from '../../transient/bounds.js';
import type { CompiledElement, Values } from '../../transient/compiled-circuit.js';
import type { CoastingFall, SeparationState } from '../facts.js';
import type { TimeFigure } from '../figure.js';
import type { FallFacts } from './fall-facts.js';
import type { FallSetting } from './fall-setting.js';
import { noTimeFigure, timeFigureOf } from './figure-of.js';
import { watchedCapacitors, type WatchedPlace } from './watched-places.js';

/** A capacitor and the machines that can feed it in a state. */
interface Fed {
  readonly watched: WatchedPlace;
  readonly machines: readonly CompiledElement[];
}

/**
 * The fall in every state that the ruleset names, with the machines at full speed at the instant of shutdown and coasting
 * down from there. A machine feeds the link through its diodes for as long as its back-EMF is above it.
 *
 * A voltage that falls by itself with the time constant τ and is held up by E·e^(−t/d) is at the limit u after the longer of
 * τ·ln(max(V, E)/u) and d·ln(E/u): where the machine slows down more slowly than the link falls the link follows it, else it
 * falls by itself. That is an upper bound for falls that are sums of decaying exponentials, and for one time constant exact
 * up to the machine's own resistance, which is left out (it only lowers what the machine holds up). Derived here from the
 * first-order fall of a textbook.
 */
export function coastingFalls(falls: readonly FallFacts[]): CoastingFall[] {
  return falls.flatMap((fall) => {
    const { setting, state } = fall;
    const machines = setting.compiled.elements.filter(({ kind }) => kind === 'machine');
    if (machines.length === 0 || !fall.required) return [];
    const fed = watchedCapacitors(setting, state).map(
      (watched): Fed => ({ watched, machines: machines.filter((each) => feeds(setting, state, each, watched)) }),
    );
    const times = fed.map((each) => seconds(fall, each, setting.box.nominal));
    const slowest = fed[times.indexOf(Math.max(...times))];
    return slowest === undefined
      ? []
      : [{ state: state.id, capacitor: slowest.watched.id, timeToLimit: timeToLimit(fall, fed) }];
  });
}

function timeToLimit(fall: FallFacts, fed: readonly Fed[]): TimeFigure {
  const { setting } = fall;
  // A machine that is said to hold the link up but not for how long.
  const endless = fed.flatMap(({ machines }) =>
    machines.flatMap(({ source }) =>
      source.kind === 'machine' &&
      source.decay === undefined &&
      source.backEmf.max > setting.conditions.dischargeVoltage
        ? [`${source.pointer}/decay`]
        : [],
    ),
  );
  if (endless.length > 0) return noTimeFigure('not-stated', [...new Set(endless)].sort());
  const clocked = setting.conditions.dischargeClock === 'shutdown-opens';
  const feeding = new Set(fed.flatMap(({ machines }) => machines.map(({ primary }) => primary)));
  // The longer of two times rises with whatever one of them rises with.
  const direction = (index: number): Direction => (feeding.has(index) ? 1 : fall.timeDirection(index, clocked));
  const latest = (values: Values): number => Math.max(0, ...fed.map((each) => seconds(fall, each, values)));
  return timeFigureOf(setting.box, boundsOf(setting.box, latest, { direction }), setting.names, { direction });
}

/** s from the start of the ruleset's clock until the voltage stays at or below the limit; Infinity: never. */
function seconds(fall: FallFacts, { watched, machines }: Fed, values: Values): number {
  const { setting } = fall;
  const { dischargeVoltage, dischargeClock } = setting.conditions;
  const start = setting.startVoltage(values);
  const emfs = machines.map(({ primary }) => values[primary] as number);
  const highest = Math.max(start, ...emfs);
  const run = highest === start ? fall.run(values) : fall.runFrom(highest, values);
  const delay = dischargeClock === 'shutdown-opens' ? setting.isolationDelay(values) : 0;
  const held = machines.map(({ source }, k) => {
    const emf = emfs[k] as number;
    if (source.kind !== 'machine' || emf <= dischargeVoltage) return 0;
    return (source.decay ?? Infinity) * Math.log(emf / dischargeVoltage);
  });
  return Math.max(delay + run.timeToLimit(watched.place, dischargeVoltage), ...held);
}

/** Whether current can flow from a machine into a capacitor and back in a state. */
function feeds(
  { circuit }: FallSetting,
  { open, gone }: SeparationState,
  machine: CompiledElement,
  watched: WatchedPlace,
): boolean {
  if (gone.includes(machine.id)) return false;
  const conducts = conductsAt({ open }, { gone });
  const [there, back] = machine.source.nodes.map((node) => reachable(circuit, node, conducts));
  const [a, b] = watched.nodes;
  return (there?.has(a) === true && back?.has(b) === true) || (there?.has(b) === true && back?.has(a) === true);
}
