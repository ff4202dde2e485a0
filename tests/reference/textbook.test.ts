import { describe, expect, it } from 'vitest';
import { integralOfSquare, lastAbove, piecesOf, timeToReach } from '../../src/transient/piecewise.js';
import { accumulator, capacitor, circuitOf, contact, NamedRun, resistor, step } from '../transient/net.js';

/** Rise of C through R from V, a load across C where given; the contact closes at t = 0. */
function rise(volts: number, ohms: number, farads: number, loadOhms?: number) {
  const circuit = circuitOf(
    [
      accumulator('a', 'p', 'n', volts),
      contact('k', 'p', 'q'),
      resistor('r', 'q', 'x', ohms),
      capacitor('c', 'x', 'n', farads),
      ...(loadOhms === undefined ? [] : [resistor('load', 'x', 'n', loadOhms)]),
    ],
    ['x', 'n'],
  );
  return new NamedRun(circuit, [step({ at: 0 }, { close: ['k'] })], { openCircuitVoltage: volts });
}

function fall(volts: number, ohms: number, farads: number) {
  const circuit = circuitOf(
    [capacitor('c', 'x', 'n', farads, { initialVoltage: volts }), resistor('r', 'x', 'n', ohms)],
    ['x', 'n'],
  );
  return new NamedRun(circuit, []);
}

const link = (run: NamedRun) =>
  piecesOf(run.timeline, (solution) => solution.voltage(run.compiled.nodes.get('x')!, run.compiled.nodes.get('n')!));
const volts = (run: NamedRun, time: number) => Number(run.voltage('x', 'n', time));
const heat = (run: NamedRun, id: string, ohms: number, until: number) =>
  ohms *
  integralOfSquare(
    piecesOf(run.timeline, (solution) => solution.current(run.compiled.byId.get(id)!.index)),
    until,
  );
/** To the digits that the book prints. */
const printed = (value: number, digits: number) => value.toPrecision(digits);

// Source: OpenStax, College Physics 2e, section 21.6 (and 19.7), the printed answers.
describe('examples of College Physics 2e', () => {
  it('8.00 µF through 1.00 kΩ from 10.0 kV to 500 V: τ 8.00 ms, three steps of a factor e', () => {
    const run = fall(10e3, 1e3, 8e-6);
    // The book multiplies by 0.368 each time and rounds on the way (3.680, 1.354 kV, 498 V); the exact values differ in the last digit.
    expect([8e-3, 16e-3, 24e-3].map((t) => Math.round(volts(run, t)))).toEqual([3679, 1353, 498]);
    for (const [t, book] of [
      [8e-3, 3680],
      [16e-3, 1354],
      [24e-3, 498],
    ] as const)
      expect(Math.abs(volts(run, t) / book - 1)).toBeLessThan(1e-3);
    expect(printed(1 / run.timeline.segments[0]!.solution.rates[0]!, 3)).toBe('0.00800');
    // "To 500 V" is therefore three time constants, to the book's accuracy.
    expect(lastAbove(link(run), 500, 10e3) / 8e-3).toBeCloseTo(Math.log(20), 12);
  });

  it('a 10.0 Ω flash lamp for 0.080 m at 500 m/s: τ 160 µs, 16 µF', () => {
    expect(printed(1 / fall(300, 10, 16e-6).timeline.segments[0]!.solution.rates[0]!, 3)).toBe('0.000160');
  });

  it('100 pF through 75.0 MΩ to 90.0 %: 17.3 ms', () => {
    expect(printed(timeToReach(link(rise(12, 75e6, 100e-12)), 0.9 * 12, 12), 3)).toBe('0.0173');
  });

  it('after two time constants 86.5 %', () => {
    expect(printed(volts(rise(100, 1000, 1e-3), 2), 3)).toBe('86.5');
  });

  it('0.500 µF with τ from 2.00 to 15.0 s: 4.00 to 30.0 MΩ', () => {
    expect(printed(1 / fall(9, 4e6, 0.5e-6).timeline.segments[0]!.solution.rates[0]!, 3)).toBe('2.00');
    expect(printed(1 / fall(9, 30e6, 0.5e-6).timeline.segments[0]!.solution.rates[0]!, 3)).toBe('15.0');
  });

  it('8.00 µF at 10.0 kV gives 400 J, all of it to the resistor', () => {
    expect(printed(heat(fall(10e3, 50, 8e-6), 'r', 50, Infinity), 3)).toBe('400');
  });
});

// Source: 1 − e^−n and its inverse, textbook; the table of section 3 of our collection of facts.
describe('the table of time constants', () => {
  it.each([
    [1, '63.212'],
    [2, '86.466'],
    [3, '95.021'],
    [4, '98.168'],
    [5, '99.326'],
  ])('after %d τ: %s %%', (n, percent) => {
    expect(volts(rise(100, 2000, 5e-4), n).toFixed(3)).toBe(percent);
  });

  it.each([
    [90, '2.3026'],
    [95, '2.9957'],
    [98, '3.9120'],
    [99, '4.6052'],
  ])('to %d %%: %s τ', (percent, taus) => {
    expect(timeToReach(link(rise(100, 2000, 5e-4)), percent, 100).toFixed(4)).toBe(taus);
  });

  it.each([
    [600, '2.3026', '2.1715'],
    [500, '2.1203', '2.3582'],
    [400, '1.8971', '2.6356'],
    [300, '1.6094', '3.1067'],
    [200, '1.2040', '4.1529'],
    [120, '0.6931', '7.2135'],
  ])('from %d V to 60 V: %s τ; largest τ for 5 s: %s s', (from, taus, largest) => {
    expect(lastAbove(link(fall(from, 1000, 1e-3)), 60, from).toFixed(4)).toBe(taus);
    const slowest = 5 / lastAbove(link(fall(from, 1000, 1e-3)), 60, from);
    expect(slowest.toFixed(4)).toBe(largest);
    expect(lastAbove(link(fall(from, slowest * 1000, 1e-3)), 60, from)).toBeCloseTo(5, 11);
  });
});

// Source: energy of a capacitor charged from a stiff source, textbook: the resistor takes as much as the capacitor, whatever R.
describe('heat in the charging resistor', () => {
  it.each([1, 47, 1000, 1e6])('is ½·C·U² through %d Ω', (ohms) => {
    expect(heat(rise(600, ohms, 500e-6), 'r', ohms, Infinity)).toBeCloseTo(90, 9);
  });

  it.each([
    [0.9, '0.9900'],
    [0.95, '0.9975'],
  ])('stopped at %d of the voltage is %s of it: (2p − p²)', (p, share) => {
    const run = rise(600, 1000, 500e-6);
    const until = timeToReach(link(run), p * 600, 600);
    expect((heat(run, 'r', 1000, until) / 90).toFixed(4)).toBe(share);
    expect(heat(run, 'r', 1000, until) / 90).toBeCloseTo(2 * p - p * p, 12);
    expect(600 - volts(run, until)).toBeCloseTo((1 - p) * 600, 9);
  });

  it('the sample of the facts: 600 V, 500 µF, 1 kΩ', () => {
    const run = rise(600, 1000, 500e-6);
    expect(1 / run.timeline.segments.at(-1)!.solution.rates[0]!).toBeCloseTo(0.5, 14);
    expect([0.9, 0.95].map((p) => timeToReach(link(run), p * 600, 600).toFixed(4))).toEqual(['1.1513', '1.4979']);
    expect(Number(run.current('r', 0))).toBeCloseTo(0.6, 14);
    expect(Number(run.current('r', 0)) * (600 - volts(run, 0))).toBeCloseTo(360, 11);
  });
});

// Source: the divider, textbook; 'stay near 1.5 kΩ' is common practice, no source.
describe('a load across the link while it charges', () => {
  it('ends at R_L/(R + R_L), with τ = (R ∥ R_L)·C', () => {
    const run = rise(600, 1500, 500e-6, 47_000);
    expect(volts(run, 1e4)).toBeCloseTo((600 * 47) / 48.5, 9);
    expect(1 / run.timeline.segments.at(-1)!.solution.rates[0]!).toBeCloseTo(((1500 * 47_000) / 48_500) * 500e-6, 14);
  });

  it.each([
    [0.95, 19, 2473.68],
    [0.9, 9, 5222.22],
  ])('reaches %d only where R_L is above %d R: 47 kΩ allows less than %d Ω', (p, times, most) => {
    expect(Math.abs(47_000 / times / most - 1)).toBeLessThan(1e-5);
    const time = (ohms: number) => timeToReach(link(rise(600, ohms, 500e-6, 47_000)), p * 600, 600);
    // At equality it is never reached.
    expect(time(47_000 / times)).toBe(Infinity);
    expect(time((47_000 / times) * (1 + 1e-9))).toBe(Infinity);
    expect(time((47_000 / times) * (1 - 1e-9))).toBeLessThan(60);
  });
});
