import { describe, expect, it } from 'vitest';
import type { Resistor, ResolvedCircuit } from '../../src/circuit/model.js';
import { createFacts } from '../../src/facts/create-facts.js';
import { computeLimits } from '../../src/limits/index.js';
import { findStock } from '../../src/limits/stock/find-stock.js';
import { powerEstimate } from '../../src/limits/stock/power-estimate.js';
import type { StockPart } from '../../src/limits/stock/stock-part.js';
import { conditionsOf, type PlainCar, plainCircuit, plainFacts, q } from './plain-car.js';

const exact = (ohms: number, power: number, count = 1): StockPart => of(ohms, 0, power, count);
const of = (nominal: number, tolerance: number, power: number, count = 1): StockPart => ({
  resistance: {
    nominal,
    min: nominal * (1 - tolerance),
    max: nominal * (1 + tolerance),
    toleranceStated: true,
  },
  power,
  // As the parts of the plain car.
  overload: { factor: 5, duration: 5 },
  count,
});

/** By the limits alone; what the rules say is tried where they are known. */
const judge = () => ({ broken: [], open: [] });

function stockFor(stock: readonly StockPart[], car: PlainCar = {}) {
  const facts = plainFacts(car);
  return findStock(facts, { ...computeLimits(facts), stock, judge });
}
const usesOf = (element: string, stock: readonly StockPart[], car: PlainCar = {}) =>
  stockFor(stock, car).stock.filter((use) => use.element === element);

/** The plain car with another part in the place of a resistor, mounted as rated. */
function withPart(circuit: ResolvedCircuit, id: string, { resistance, power }: StockPart): ResolvedCircuit {
  const elements = circuit.elements.map((element) => {
    if (element.id !== id) return element;
    const { thermal: _thermal, ...rest } = element as Resistor;
    const ratings = { ...rest.ratings, power };
    return { ...rest, resistance, mounting: 'as-rated', ratings } satisfies Resistor;
  });
  return { ...circuit, elements };
}

/** Whether every limit on that part of the car is kept, judged afresh with the part built in. */
function keepsEveryLimit(id: string, part: StockPart, car: PlainCar = {}): boolean {
  const circuit = withPart(plainCircuit(car), id, part);
  const facts = createFacts(circuit, { ...conditionsOf('student-ev-2026'), ...car.conditions });
  const own = computeLimits(facts).limits.filter(({ element }) => element === id);
  expect(own.length).toBeGreaterThan(2);
  return own.every(({ satisfied }) => satisfied === true);
}

/** With half the capacitance the time limit is out of the way, and the dividers bound the resistance. */
const smallLink = { link: { capacitance: q(250e-6) } };

const grid = [350, 405, 1000, 1380, 1400, 2200, 4000].flatMap((ohms) =>
  [60, 73, 110, 200].map((power) => exact(ohms, power)),
);

describe('parts at hand', () => {
  it.each(['pre-resistor', 'dis-resistor'])('in place of %s keep every limit, and those left out do not', (id) => {
    const listed = new Set(
      grid.flatMap((part, index) => (usesOf(id, [part]).length > 0 ? [`${index} ${part.power}`] : [])),
    );
    const keeping = grid.flatMap((part, index) => (keepsEveryLimit(id, part) ? [`${index} ${part.power}`] : []));
    expect(keeping.length).toBeGreaterThan(2);
    expect([...listed]).toEqual(keeping);
  });

  it('with tolerances keep every limit over their whole range', () => {
    const parts = [700, 1000, 1400, 1550, 1600, 1650].flatMap((ohms) => [of(ohms, 0.05, 150), of(ohms, 0.1, 150)]);
    const listed = parts.map((part) => usesOf('pre-resistor', [part]).length > 0);
    expect(listed).toEqual(parts.map((part) => keepsEveryLimit('pre-resistor', part)));
    expect(new Set(listed).size).toBe(2);
  });

  it('without a tolerance have that of the part in whose place they are put', () => {
    const bare: StockPart = {
      ...exact(1600, 150),
      resistance: { nominal: 1600, min: 1600, max: 1600, toleranceStated: false },
      count: 1,
    };
    const car = (tolerance: number): PlainCar => ({
      parts: { ...smallLink, 'pre-resistor': { resistance: q(1000, tolerance) } },
    });
    // 47 kΩ · 0.035/0.965 = 1704.7 Ω: the divider at threshold plus error.
    expect(usesOf('pre-resistor', [bare], car(0.05))).toHaveLength(1);
    expect(usesOf('pre-resistor', [bare], car(0.1))).toHaveLength(0);
  });

  it('stand the power of their place: U²/R over the overload factor', () => {
    // 600 V into 1 kΩ are 360 W; five times the rating for five seconds, the rise into a short takes three.
    expect(usesOf('pre-resistor', [exact(1000, 71.9)])).toEqual([]);
    const [use] = usesOf('pre-resistor', [exact(1000, 80)]);
    expect(use).toMatchObject({ use: 'single', parts: [0], resistance: 1000, power: 80, open: [] });
    expect(use?.margin).toBeCloseTo(1 - 360 / 400, 9);
  });

  it('have the smallest of all margins', () => {
    const [use] = usesOf('pre-resistor', [exact(1650, 400)], { parts: smallLink });
    // The divider at threshold plus error is the nearest limit.
    expect(use?.margin).toBeCloseTo(1 - 1650 / ((47_000 * 0.035) / 0.965), 9);
  });
});

describe('two parts', () => {
  it('in series share the power as their resistances', () => {
    // 250 + 750 Ω: a quarter and three quarters of 360 W, over the overload factor 5: 18 W and 54 W.
    const fits = usesOf('pre-resistor', [exact(250, 18.5), exact(750, 54.5)]);
    expect(fits).toEqual([expect.objectContaining({ use: 'series', parts: [0, 1], resistance: 1000 })]);
    // The first to reach its rating is the larger one: 54.5·1000/750.
    expect(fits[0]?.power).toBeCloseTo((54.5 * 1000) / 750, 9);
    expect(fits[0]?.margin).toBeCloseTo(1 - 54 / 54.5, 9);
    expect(usesOf('pre-resistor', [exact(250, 17.9), exact(750, 54.5)])).toEqual([]);
    expect(usesOf('pre-resistor', [exact(250, 18.5), exact(750, 53.9)])).toEqual([]);
  });

  it('in parallel share it as their conductances', () => {
    // 4000 ∥ 1333.3 Ω = 1000 Ω: a quarter and three quarters.
    const other = 4000 / 3;
    const fits = usesOf('pre-resistor', [exact(4000, 18.5), exact(other, 54.5)]).filter(
      ({ use }) => use === 'parallel',
    );
    expect(fits).toEqual([expect.objectContaining({ use: 'parallel', parts: [0, 1] })]);
    expect(fits[0]?.resistance).toBeCloseTo(1000, 9);
    const weak = usesOf('pre-resistor', [exact(4000, 17.9), exact(other, 54.5)]);
    expect(weak.filter(({ use }) => use === 'parallel')).toEqual([]);
  });

  it('are as good as one part of their sum that stands what they stand together', () => {
    const stock = [exact(400, 60), exact(900, 90), exact(3000, 40), exact(1800, 120)];
    for (const { use, resistance, power } of usesOf('pre-resistor', stock)) {
      expect(keepsEveryLimit('pre-resistor', exact(resistance, power)), `${use} ${resistance}`).toBe(true);
    }
  });

  it('of one kind need two of it', () => {
    expect(usesOf('pre-resistor', [exact(500, 40, 1)])).toEqual([]);
    expect(usesOf('pre-resistor', [exact(500, 40, 2)])).toMatchObject([{ use: 'series', parts: [0, 0] }]);
  });
});

describe('the list', () => {
  const many = Array.from({ length: 30 }, (_, index) => exact(600 + 30 * index, 100 + index, 2));

  it('has the best margin first, at most 20 for each resistor', () => {
    const { stock } = stockFor(many);
    for (const id of ['pre-resistor', 'dis-resistor']) {
      const margins = stock.filter(({ element }) => element === id).map(({ margin }) => margin);
      expect(margins.length).toBeLessThanOrEqual(20);
      expect(margins).toEqual([...margins].sort((a, b) => b - a));
    }
    expect(stock.filter(({ element }) => element === 'pre-resistor')).toHaveLength(20);
  });

  it('is the best of all singles and pairs, each tried by itself', () => {
    const few = [330, 470, 560, 680, 820, 1000, 1200, 1800, 2700].map((ohms) => exact(ohms, 90));
    const alone = few.flatMap((part) => usesOf('pre-resistor', [part]));
    const paired = few.flatMap((one, index) =>
      few.slice(index + 1).flatMap((other) => usesOf('pre-resistor', [one, other])),
    );
    const all = [...alone, ...paired.filter(({ use }) => use !== 'single')].map(({ margin }) => margin);
    expect(all.length).toBeGreaterThan(20);
    const listed = usesOf('pre-resistor', few).map(({ margin }) => margin);
    const best = all.sort((a, b) => b - a).slice(0, 20);
    for (const [index, margin] of listed.entries()) expect(margin).toBeCloseTo(best[index] ?? Number.NaN, 9);
    expect(listed).toHaveLength(20);
  });

  it('says why nothing fits', () => {
    const { stock, stockNotes } = stockFor([exact(1e6, 1000)]);
    expect(stock).toEqual([]);
    expect(stockNotes.map(({ element }) => element)).toEqual(['dis-resistor', 'pre-resistor']);
    for (const { note } of stockNotes) expect(note).toMatch(/Nothing at hand lies above .* and below .*\.$/);
    const weak = stockFor([exact(1000, 1)]).stockNotes.find(({ element }) => element === 'pre-resistor');
    expect(weak?.note).toMatch(/does not stand the power\.$/);
  });

  it('names the limits that nobody can judge, and never takes them for kept', () => {
    const [use] = usesOf('pre-resistor', [exact(1000, 100)], { precharge: { timeout: undefined } });
    expect(use?.open).toEqual(['precharge-resistance-max-time', 'precharge-power-rating-min']);
  });
});

describe('parts that state nothing of a short time', () => {
  const bare = (ohms: number, power: number): StockPart => {
    const { overload: _overload, ...part } = exact(ohms, power);
    return part;
  };

  it('are listed by how little they would have to stand beyond their rating, not by margin alone', () => {
    // 600 V into 1000, 1100 and 1200 Ω: 360 W in 0.001 W, 327.3 W in 100 W, 300 W in 50 W. Joule heating, textbook.
    const stock = [bare(1000, 0.001), bare(1100, 100), bare(1200, 50)];
    const uses = usesOf('pre-resistor', stock).filter(({ use }) => use === 'single');
    expect(uses.map(({ parts }) => parts)).toEqual([[1], [2], [0]]);
    for (const { open } of uses) expect(open).toEqual(['precharge-power-rating-min']);
    const expected = [600 ** 2 / 1100 / 100, 600 ** 2 / 1200 / 50, 600 ** 2 / 1000 / 0.001];
    for (const [index, { overload }] of uses.entries())
      expect((overload ?? 0) / (expected[index] ?? 0)).toBeCloseTo(1, 9);
  });

  it('name no overload where they stand it for ever, or state what they stand', () => {
    for (const part of [bare(1000, 400), exact(1000, 100)]) {
      const [use] = usesOf('pre-resistor', [part]);
      expect(use).toMatchObject({ open: [] });
      expect(use).not.toHaveProperty('overload');
    }
  });

  it('name no overload where not even what they stand for ever can be told', () => {
    const unknown: PlainCar = { parts: { 'pre-resistor': { ratings: { power: 100 }, mounting: 'heat-sink' } } };
    const uses = usesOf('pre-resistor', [bare(1000, 100)], unknown);
    expect(uses).toHaveLength(1);
    expect(uses[0]?.open).toContain('precharge-power-rating-min');
    expect(uses[0]).not.toHaveProperty('overload');
  });
});

describe('the estimate of a power', () => {
  // P = E²·R/(R + T)², voltage divider, textbook; the worst of two sources, as two corners of tolerances make them.
  const sources = [
    { volts: 600, ohms: 200 },
    { volts: 520, ohms: 5 },
  ];
  const power = (ohms: number) => Math.max(...sources.map((one) => (one.volts ** 2 * ohms) / (ohms + one.ohms) ** 2));
  const estimate = powerEstimate(power, 10, 10_000);

  it('is never too small, and exact at the places it is made from', () => {
    for (let ohms = 10; ohms <= 10_000; ohms *= 1.07) {
      expect(estimate(ohms)).toBeGreaterThanOrEqual(power(ohms) * (1 - 1e-12));
      expect(estimate(ohms)).toBeLessThan(power(ohms) * 1.2);
    }
    expect(estimate(10)).toBeCloseTo(power(10), 6);
    expect(estimate(10_000)).toBeCloseTo(power(10_000), 6);
  });

  it('is exact everywhere where one source is the worst', () => {
    const one = (ohms: number) => (600 ** 2 * ohms) / (ohms + 200) ** 2;
    const exactly = powerEstimate(one, 50, 5000);
    for (const ohms of [50, 77, 200, 1234, 5000]) expect(exactly(ohms) / one(ohms)).toBeCloseTo(1, 9);
  });
});
