import type { Example, WireElement } from './read-examples.js';

/** The values an examples file uses: a number in SI, or a number with a prefix and a unit. */
function si(quantity: unknown): number {
  if (typeof quantity === 'number') return quantity;
  const [, digits, prefix] = /^([\d.]+) ([kMmµ]?)[ΩFVWs]$/.exec(String(quantity)) ?? [];
  const factor = { '': 1, k: 1e3, M: 1e6, m: 1e-3, µ: 1e-6 }[prefix ?? ''];
  if (digits === undefined || factor === undefined) throw new Error(`not a quantity: ${String(quantity)}`);
  return Number(digits) * factor;
}

interface Range {
  readonly min: number;
  readonly max: number;
}

function range(value: unknown): Range {
  if (typeof value !== 'object' || value === null) return { min: si(value), max: si(value) };
  const { nominal, tolerance, min, max } = value as Readonly<Record<string, unknown>>;
  if (tolerance === undefined) return { min: si(min), max: si(max) };
  return { min: si(nominal) * (1 - Number(tolerance)), max: si(nominal) * (1 + Number(tolerance)) };
}

/**
 * The worst case of an example car by textbook formulas alone: a divider for where the rise settles, one time constant for
 * rise and fall (cables of milliohms and capacitors' series resistance left out), U²/R for heat (OpenStax, College Physics
 * 2e, sections 20.4, 21.1 and 21.6).
 */
export function byHand({ request: { circuit, event } }: Example) {
  const of = (kind: string): readonly WireElement[] => circuit.elements.filter((element) => element.kind === kind);
  const one = (id: string): WireElement | undefined => circuit.elements.find((element) => element.id === id);
  const ohms = (id: string): Range => range(one(id)?.['resistance']);
  const control = circuit['control'] as { readonly precharge: { readonly threshold?: number } };

  const voltage = of('accumulator').reduce((sum, element) => sum + range(element['voltage']).max, 0);
  const capacitance = of('capacitor').reduce((sum, element) => sum + range(element['capacitance']).max, 0);
  const inside = of('accumulator').map((element) => range(element['resistance']));
  const series = (end: 'min' | 'max'): number =>
    ohms('precharge-resistor')[end] + ohms('precharge-relay')[end] + inside.reduce((sum, each) => sum + each[end], 0);

  // Two legs of an insulation monitor stand in series between the poles.
  const insulation = 1 / (ohms('insulation-pos').min + ohms('insulation-neg').min);
  const meters = of('meter').filter(({ id, zone }) => zone === 'vehicle' && !id.startsWith('insulation'));
  const bleeds = circuit.elements.filter(({ role }) => role === 'bleed');
  const permanent = one('discharge-relay') === undefined ? [ohms('discharge-resistor')] : [];
  const shunts = [...[...meters, ...bleeds].map((element) => range(element['resistance'])), ...permanent];
  const eventMeter = event?.meterResistance === undefined ? 0 : 1 / si(event.meterResistance);
  const leak = insulation + eventMeter + shunts.reduce((sum, each) => sum + 1 / each.min, 0);

  const ratio = 1 / (1 + leak * series('max'));
  // A timer has no setting: the ruleset's own 95 % counts.
  const level = control.precharge.threshold ?? 0.95;
  const rise = ratio > level ? series('max') * ratio * capacitance * Math.log(ratio / (ratio - level)) : null;

  const discharge = ohms('discharge-resistor');
  const discharging = one('discharge-relay') === undefined ? leak - 1 / discharge.min : leak;
  const fall = (resistance: number): number => resistance * capacitance * Math.log(voltage / 60);
  return {
    ratio,
    rise,
    peakCurrent: voltage / series('min'),
    power: voltage ** 2 / discharge.min,
    /** To 60 V: at the longest through the discharge resistor alone, at the shortest with every meter and bleed helping. */
    fall: { longest: fall(discharge.max), shortest: fall(1 / (1 / discharge.max + discharging)) },
  };
}
