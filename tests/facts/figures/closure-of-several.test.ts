import { describe, expect, it } from 'vitest';
import type { Element, Toleranced } from '../../../src/circuit/model.js';
import { createFacts } from '../../../src/facts/create-facts.js';
import { accumulator, capacitor, circuitOf, contact, exact, meter, resistor, within } from '../../transient/net.js';
import { random } from '../../transient/random.js';
import { conditions } from '../topology/fixtures.js';

const inside = { zone: 'container' } as const;
const relay = { role: 'isolation-relay', suppliedBy: 'shutdown-circuit' } as const;

type Next = () => number;

/** Between two values, evenly in their logarithm. */
const between = (next: Next, low: number, high: number): number => low * (high / low) ** next();

/** A car with two or three inverters, each with its capacitor behind a cable of its own and with a bleed across it. */
function carOf(next: Next): Element[] {
  const part = (low: number, high: number): Toleranced => within(between(next, low, high), 0.25 * next());
  const count = next() < 0.5 ? 2 : 3;
  const inverters = Array.from({ length: count }, (_, k) => {
    const node = `i${String(k)}`;
    // A row of them, or each on the link.
    const from = k > 0 && next() < 0.5 ? `i${String(k - 1)}` : 'lp';
    return [
      resistor(`cable${String(k)}`, from, node, part(1e-3, 0.1)),
      capacitor(`c${String(k)}`, node, 'ln', part(1e-4, 1e-3), { esr: next() < 0.3 ? exact(0) : part(1e-3, 0.02) }),
      meter(`bleed${String(k)}`, node, 'ln', part(4e4, 4e5)),
    ];
  });
  return [
    { ...accumulator('pack', 'bp', 'bn', within(400, 0.2 * next()), part(0.1, 1)), ...inside },
    { ...contact('air-pos', 'bp', 'tp', { ...relay, resistance: exact(3e-4) }), ...inside },
    { ...contact('air-neg', 'bn', 'ln', relay), ...inside },
    { ...contact('pre-relay', 'bp', 'x', { ...relay, role: 'precharge-relay' }), ...inside },
    { ...resistor('pre', 'x', 'tp', part(50, 250), { role: 'precharge' }), ...inside },
    resistor('feed', 'tp', 'lp', part(1e-3, 0.02)),
    meter('sense', 'lp', 'ln', part(1e5, 1e6)),
    ...inverters.flat(),
  ];
}

function drawn(element: Element, next: Next): Element {
  const fields = Object.entries(element).map(([name, value]: [string, unknown]) => {
    if (typeof value !== 'object' || value === null || !('toleranceStated' in value)) return [name, value] as const;
    const { min, max } = value as Toleranced;
    return [name, exact(min + (max - min) * (next() < 0.7 ? Math.round(next()) : next()))] as const;
  });
  return Object.fromEntries(fields) as unknown as Element;
}

const closing = (elements: readonly Element[]) =>
  createFacts(circuitOf([...elements], ['lp', 'ln']), conditions).rise.currentAtSecondClosure;

describe('the closing current of several capacitors on cables', () => {
  const next = random(2026);
  const cars = Array.from({ length: 25 }, () => carOf(next));

  it.each(cars.map((car, k) => [k, car] as const))('lies below its bound wherever the parts stand (%i)', (_, car) => {
    const { max, gap } = closing(car);
    expect(gap?.max).toBeTypeOf('number');
    let most = 0;
    for (let draw = 0; draw < 30; draw += 1) {
      const { nominal } = closing(car.map((element) => drawn(element, next)));
      most = Math.max(most, nominal ?? 0);
      expect(nominal).toBeLessThanOrEqual(max! * (1 + 1e-9));
    }
    expect(most).toBeGreaterThan(0);
  });

  it('is Ohm’s where the cables are next to nothing', () => {
    const next = random(7);
    const car = carOf(next).map(
      (element): Element =>
        element.kind === 'resistor' && element.id.startsWith('cable')
          ? { ...element, resistance: within(1e-7, 0.2) }
          : element,
    );
    const ideal = car.map(
      (element): Element => (element.kind === 'capacitor' ? { ...element, esr: exact(0) } : element),
    );
    const { max, gap } = closing(ideal);
    // Ohm's law, by hand: what is left of the highest voltage over all that carries it, at its least.
    const of = (id: string) => ideal.find((element) => element.id === id) as unknown as Record<string, Toleranced>;
    const parallel = (one: number, other: number) => (one * other) / (one + other);
    const path =
      of('pack')['resistance']!.min + of('feed')['resistance']!.min + parallel(3e-4, of('pre')['resistance']!.min);
    const byOhm = (of('pack')['voltage']!.max * 0.05) / path;
    expect(max).toBeGreaterThan(byOhm * (1 - 1e-3));
    // Besides what the feed drops at the very first instant: 20 mΩ times 10 A, beside 20 V.
    expect(max).toBeLessThan(byOhm * (1 + 0.02));
    expect(gap!.max! / max!).toBeLessThan(0.02);
  });
});
