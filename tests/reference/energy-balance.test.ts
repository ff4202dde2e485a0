import { describe, expect, it } from 'vitest';
import type { Element } from '../../src/circuit/model.js';
import { ExponentialSum, integralOfProduct } from '../../src/transient/exponential-sum.js';
import { accumulator, capacitor, circuitOf, contact, exact, load, NamedRun, resistor, step } from '../transient/net.js';
import { decades, random } from '../transient/random.js';

/** Relative to the energy turned over: the promise for signals, squared and added up. */
const BALANCE = 1e-9;

/** Out of the sources = into the capacitors + heat + lost in jumps, over the whole run. */
function balance(
  elements: readonly Element[],
  steps: Parameters<typeof step>[0][],
  until: number,
  more: Partial<ConstructorParameters<typeof NamedRun>[2]> = {},
) {
  const circuit = circuitOf(elements, ['x', 'n']);
  const run = new NamedRun(
    circuit,
    steps.map((each) => step({}, each)),
    { until, openCircuitVoltage: 400, ...more },
  );
  const { compiled, timeline } = run;
  let absorbed = 0;
  let turned = 0;
  for (const { start, end, solution } of timeline.segments) {
    for (const { a, b, index, kind } of compiled.elements) {
      if (kind === 'capacitor') continue;
      const current = solution.current(index);
      const voltage = solution.voltage(a, b);
      if (!(current instanceof ExponentialSum) || !(voltage instanceof ExponentialSum)) continue;
      const energy = integralOfProduct(voltage, current, end - start);
      absorbed += energy;
      turned += Math.abs(energy);
    }
  }
  const stored = (volts: (position: number) => number) =>
    compiled.capacitors.reduce((sum, index, k) => {
      const { source } = compiled.elements[index]!;
      return source.kind === 'capacitor' ? sum + 0.5 * source.capacitance.nominal * volts(k) ** 2 : sum;
    }, 0);
  const last = timeline.segments.at(-1)!;
  const first = circuit.elements.filter((element) => element.kind === 'capacitor');
  const before = stored((k) => first[k]!.initialVoltage);
  const after = stored((k) => last.solution.capacitorVoltage(k).at(last.end - last.start));
  // What a capacitor's ESR turns to heat: R·∫i², its current being the capacitor's.
  let esr = 0;
  for (const { start, end, solution } of timeline.segments) {
    for (const { index, source } of compiled.elements) {
      if (source.kind !== 'capacitor' || source.esr === undefined) continue;
      const current = solution.current(index);
      if (current instanceof ExponentialSum)
        esr += source.esr.nominal * integralOfProduct(current, current, end - start);
    }
  }
  const lost = timeline.events.reduce((sum, event) => sum + event.energyLost, 0);
  return { error: Math.abs(absorbed + esr + lost + after - before), turned: turned + before + after, lost };
}

describe('energy over whole runs', () => {
  it('is kept: a car pre-charged, closed, opened and discharged, parts at random', () => {
    const next = random(221);
    let worst = 0;
    for (let round = 0; round < 12; round += 1) {
      const { error, turned } = balance(
        [
          accumulator('a', 'p', 'n', 400, decades(next, -2, 0)),
          contact('air', 'p', 'x'),
          contact('pre', 'p', 'q'),
          resistor('r-pre', 'q', 'x', decades(next, 2, 3.3)),
          capacitor('c1', 'x', 'n', decades(next, -4, -2.5), {
            esr: exact(decades(next, -2, 0)),
            initialVoltage: 30 * next(),
          }),
          resistor('cable', 'x', 'y', decades(next, -3, 0)),
          capacitor('c2', 'y', 'm', decades(next, -5, -3)),
          capacitor('c3', 'm', 'n', decades(next, -5, -3), { initialVoltage: -5 }),
          resistor('b', 'y', 'm', 50_000),
          load('l', 'x', 'n', { current: exact(0.02) }),
          contact('dis', 'x', 'd', { rest: 'closed', releaseTime: 0.05 }),
          resistor('r-dis', 'd', 'n', decades(next, 3, 4)),
        ],
        [
          { at: 0, close: ['pre'], open: ['dis'] },
          { when: { linkRatio: 0.8, falling: false }, close: ['air'] },
          { after: 0.1, open: ['pre'] },
          { after: 1, release: true },
        ],
        60,
      );
      worst = Math.max(worst, error / turned);
    }
    expect(worst).toBeLessThan(BALANCE);
  });

  it('is kept where ideal capacitors share charge: what is missing stands in the event', () => {
    const { error, turned, lost } = balance(
      [
        capacitor('c1', 'x', 'n', 1e-3, { initialVoltage: 300 }),
        contact('k', 'x', 'y'),
        capacitor('c2', 'y', 'n', 4e-4, { initialVoltage: 20 }),
        resistor('r', 'y', 'n', 900),
      ],
      [{ at: 0.2, close: ['k'] }],
      5,
    );
    expect(lost).toBeGreaterThan(1);
    expect(error / turned).toBeLessThan(BALANCE);
  });

  it('is kept with a load that wakes and sleeps', () => {
    const { error, turned } = balance(
      [
        accumulator('a', 'p', 'n', 400, 0.5),
        resistor('r', 'p', 'x', 1000),
        capacitor('c', 'x', 'n', 1e-3),
        load('l', 'x', 'n', { resistance: exact(1000), startsAbove: 300, stopsBelow: 250 }),
      ],
      [],
      8,
    );
    expect(error / turned).toBeLessThan(BALANCE);
  });
});
