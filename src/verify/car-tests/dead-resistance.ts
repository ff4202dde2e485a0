import { type Conducts, conductsAt } from '../../circuit/conducts-at.js';
import { effectiveResistance } from '../../circuit/effective-resistance.js';
import type { Element, Toleranced } from '../../circuit/model.js';
import type { Facts, SeparationState } from '../../facts/facts.js';
import { withEventMeter } from '../../facts/figures/event-meter.js';

/** What an ohmmeter shows between the measuring points of a car without any supply, in Ω; Infinity: nothing joins them. */
export interface DeadResistance {
  readonly min: number;
  readonly max: number;
  /** With no discharge resistor, at nominal values. */
  readonly withoutDischarge: number;
  /** With the capacitors shorted, at nominal values: what stands between the points and the link. */
  readonly shorted: number;
}

interface Options {
  readonly end: 'min' | 'nominal' | 'max';
  /** Loads that are plain resistances conduct. */
  readonly loads?: boolean;
  readonly without?: readonly string[];
  /** Elements that count as 0 Ω. */
  readonly shorted?: readonly string[];
}

/**
 * The resistance a network shows rises with each of its own (Rayleigh's monotonicity law, textbook), so its range lies at the ends
 * of theirs. Every contact is at rest. The event's meter and loads that are plain resistances may be there or not: they
 * count for the lower end only.
 */
export function deadResistance(facts: Facts, state: SeparationState): DeadResistance | undefined {
  const { circuit, topology, conditions } = facts;
  const points = circuit.measuringPoints;
  if (points === undefined) return undefined;
  const loaded = withEventMeter(circuit, topology, conditions.eventMeterResistance);
  const read = (options: Options, car = circuit): number =>
    effectiveResistance(car, points.positive, points.negative, conductsDead(facts, state, options));
  return {
    min: read({ end: 'min', loads: true }, loaded),
    max: read({ end: 'max' }),
    withoutDischarge: read({ end: 'nominal', without: topology.dischargeResistors }),
    shorted: read({ end: 'nominal', shorted: topology.vehicleCapacitors }),
  };
}

function conductsDead({ circuit, conditions }: Facts, state: SeparationState, options: Options): Conducts {
  const { end, loads = false, without = [], shorted = [] } = options;
  const contacts = new Set(circuit.elements.filter(({ kind }) => kind === 'contact').map(({ id }) => id));
  const resting = circuit.elements.filter((element) => element.kind === 'contact' && element.rest === 'open');
  const open = [...state.open.filter((id) => !contacts.has(id)), ...resting.map(({ id }) => id)];
  const plain = conductsAt({ open }, { at: end, gone: [...state.gone, ...without], leakage: true });
  const tolerances = conditions.assumedTolerance;
  return (element: Element) => {
    if (shorted.includes(element.id)) return 0;
    const ohms = plain(element);
    if (element.kind === 'load') {
      // A load that starts at a voltage of its own is asleep at an ohmmeter's.
      return loads && element.startsAbove === 0 && !state.gone.includes(element.id)
        ? element.resistance?.[end]
        : undefined;
    }
    if (ohms === undefined || (element.kind !== 'resistor' && element.kind !== 'meter')) return ohms;
    return atEnd(element.resistance, end, element.kind === 'meter' ? tolerances.meter : tolerances.resistor);
  };
}

/** The end of a range, of the one that the ruleset assumes where none is stated. */
function atEnd(value: Toleranced, end: Options['end'], assumed: number): number {
  if (value.toleranceStated || end === 'nominal') return value[end];
  return value.nominal * (end === 'min' ? 1 - assumed : 1 + assumed);
}
