import { describe, expect, it } from 'vitest';
import { CircuitFault } from '../../../src/circuit/fault.js';
import { readCircuit } from '../../../src/circuit/read-circuit.js';
import { computeLimits } from '../../../src/limits/index.js';
import type { StockUse } from '../../../src/limits/stock/stock-use.js';
import type { StockPart } from '../../../src/limits/stock/stock-part.js';
import type { Finding } from '../../../src/rules/finding.js';
import { rulesetById } from '../../../src/rules/ruleset-by-id.js';
import { rules } from '../../../src/rules/rules.js';
import type { Ruleset } from '../../../src/rules/ruleset.js';
import { findLimits } from '../../../src/verify/find-limits.js';
import { prepare } from '../../../src/verify/prepare.js';
import { readStock } from '../../../src/verify/stock/read-stock.js';
import { stockAnswer } from '../../../src/verify/stock/stock-answer.js';
import { stockCapacities } from '../../../src/verify/stock/stock-capacities.js';
import { verifyCircuit } from '../../../src/verify/verify-circuit.js';
import { examples } from '../../examples/read-examples.js';

type Fields = Record<string, unknown> & { id: string; nodes: [string, string] };
type Circuit = Record<string, unknown> & { elements: Fields[] };
interface Part {
  readonly resistance: { readonly nominal: number; readonly tolerance: number };
  readonly power: number;
  readonly voltage?: number;
  readonly overload?: object;
  readonly count?: number;
}

function circuitOf(id: string): { circuit: Circuit; ruleset: Ruleset } {
  const found = examples.find(({ example }) => example.id === id);
  const ruleset = rulesetById(found?.example.request.ruleset ?? '');
  if (found === undefined || ruleset === undefined) throw new Error(`no example ${id}`);
  return { circuit: structuredClone(found.example.request.circuit) as unknown as Circuit, ruleset };
}

function resolved(circuit: Circuit) {
  const reading = readCircuit(circuit, '#/circuit');
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  return reading.circuit;
}

function stockOf(parts: readonly Part[]): readonly StockPart[] {
  const reading = readStock(parts, '#/stock');
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  return reading.stock;
}

/** What a caller would send to have a use judged: the description itself with the parts written into it. */
function refitted(circuit: Circuit, { element, use, parts }: StockUse, stock: readonly Part[]): Circuit {
  const place = circuit.elements.find(({ id }) => id === element);
  if (place === undefined) throw new Error(`no ${element}`);
  const { thermal: _thermal, ratings = {}, ...rest } = place;
  const { fullPowerUpTo, zeroPowerAt } = ratings as Record<string, unknown>;
  const [a, b] = place.nodes;
  const between: [string, string][] =
    use === 'single'
      ? [[a, b]]
      : use === 'parallel'
        ? [
            [a, b],
            [a, b],
          ]
        : [
            [a, 'between'],
            ['between', b],
          ];
  const added = parts.map((index, step) => {
    const { resistance, power, voltage, overload } = stock[index] as Part;
    return {
      ...rest,
      id: step === 0 ? element : `${element}-${step + 1}`,
      nodes: between[step],
      resistance,
      mounting: 'as-rated',
      ratings: JSON.parse(JSON.stringify({ fullPowerUpTo, zeroPowerAt, power, voltage, overload })) as unknown,
    } as Fields;
  });
  return { ...circuit, elements: [...circuit.elements.filter(({ id }) => id !== element), ...added] };
}

const findingsOf = (circuit: Circuit, ruleset: Ruleset): Finding[] =>
  verifyCircuit({ circuit: resolved(circuit), ruleset }).findings;
const withStatus = (findings: readonly Finding[], status: Finding['status']): string[] =>
  findings.filter((finding) => finding.status === status).map(({ rule }) => rule);

const part = (nominal: number, power: number, further: object = {}): Part => ({
  resistance: { nominal, tolerance: 0.02 },
  power,
  voltage: 1000,
  overload: { factor: 5, duration: 5 },
  ...further,
});
const assorted = [
  part(220, 100),
  part(330, 100),
  part(680, 100),
  part(1000, 150),
  part(2200, 400),
  part(4700, 400),
  part(6800, 400, { count: 2 }),
  part(1000, 150, { voltage: 300 }),
  part(2200, 400, { voltage: 300 }),
  part(680, 100, { overload: { factor: 5, duration: 0.1 } }),
];

describe('parts at hand put into the sound cars', () => {
  const sound = examples.map(({ example }) => example.id).filter((id) => id.startsWith('sound-'));

  it.each(sound)(
    '%s: what is listed breaks no rule, and what it leaves open is said',
    (id) => {
      const { circuit, ruleset } = circuitOf(id);
      const { stock = [], limits } = findLimits({ circuit: resolved(circuit), ruleset }, stockOf(assorted));
      expect(stock.length).toBeGreaterThan(2);
      const before = findingsOf(circuit, ruleset);
      const broken = withStatus(before, 'violated');
      const ruleOf = new Map(limits.map(({ name, rule }) => [name, rule]));
      // The best and the last of each place and use.
      const tried = stock.filter(
        (use, index) =>
          index === stock.findIndex((one) => one.element === use.element && one.use === use.use) ||
          index === stock.findLastIndex((one) => one.element === use.element),
      );
      for (const use of tried) {
        const after = findingsOf(refitted(circuit, use, assorted), ruleset);
        expect([use, withStatus(after, 'violated')]).toEqual([use, broken]);
        const opened = withStatus(after, 'undetermined').filter(
          (rule) => !withStatus(before, 'undetermined').includes(rule),
        );
        const said = use.open.map((name) => ruleOf.get(name) ?? name);
        expect([use, opened.filter((rule) => !said.includes(rule))]).toEqual([use, []]);
      }
    },
    60_000,
  );
});

describe('a part at hand', () => {
  const { circuit, ruleset } = circuitOf('sound-rear-pack');
  const precharge = circuit.elements.find(({ role }) => role === 'precharge')?.id ?? '';
  const answerFor = (...parts: Part[]) => {
    const { stock = [], stockNotes = [] } = findLimits({ circuit: resolved(circuit), ruleset }, stockOf(parts));
    return {
      uses: stock.filter(({ element }) => element === precharge),
      note: stockNotes.find(({ element }) => element === precharge)?.note,
    };
  };

  /** Good practice that asks for the mass of the resistor, or its surface: no stock states them. */
  const unknown = answerFor(part(1000, 150)).uses[0]?.open ?? [];

  it('fits where every rule is kept, as far as can be told', () => {
    expect(unknown.every((rule) => rules.some(({ meta }) => meta.id === rule))).toBe(true);
    expect(answerFor(part(1000, 150)).uses).toMatchObject([{ use: 'single', parts: [0], open: unknown }]);
  });

  it('is left out where its voltage rating is too low, and the rule is named', () => {
    const { uses, note } = answerFor(part(1000, 150, { voltage: 100 }));
    expect(uses).toEqual([]);
    expect(note).toMatch(/breaks voltage-ratings\.$/);
  });

  it('two in series share the voltage, so that each may be rated for less', () => {
    const [low, high] = [part(500, 100, { voltage: 100 }), part(500, 100, { voltage: 350 })];
    expect(answerFor({ ...low, count: 2 }).uses).toEqual([]);
    expect(answerFor({ ...high, count: 2 }).uses).toMatchObject([{ use: 'series', parts: [0, 0], open: unknown }]);
  });

  it('leaves open what is not stated of it', () => {
    const { voltage: _voltage, ...noVoltage } = part(1000, 150);
    expect(answerFor(noVoltage).uses).toMatchObject([
      { open: expect.arrayContaining(['voltage-ratings']) as string[] },
    ]);
    const { overload: _overload, ...noOverload } = part(1000, 150);
    expect(answerFor(noOverload).uses).toMatchObject([
      { open: expect.arrayContaining(['precharge-power-rating-min']) as string[] },
    ]);
    // A power that it stands for ever it also stands for a while.
    expect(answerFor({ ...noOverload, power: 2000 }).uses).toMatchObject([{ open: unknown }]);
  });

  it('that stands its overload too shortly for a rise into a short is open or left out', () => {
    const { uses } = answerFor(part(1000, 150, { overload: { factor: 5, duration: 0.01 } }));
    expect(uses.every(({ open }) => open.includes('precharge-power-rating-min'))).toBe(true);
  });
});

describe('a part that loads the rise', () => {
  it('keeps what the setting and the timeout ask of it too', () => {
    const { circuit, ruleset } = circuitOf('sound-permanent-discharge');
    const prepared = prepare({ circuit: resolved(circuit), ruleset });
    const found = computeLimits(prepared.facts);
    const window = found.windows.find(
      ({ minBy }) => minBy === 'precharge-resistance-max-setting' || minBy === 'precharge-resistance-max-time',
    );
    const level = found.limits.find(
      ({ name, element }) => name === 'precharge-load-resistance-min' && element === window?.element,
    );
    if (window === undefined || typeof level?.value !== 'number') throw new Error('the example has no such window');
    const between = ((window.min ?? 0) * 0.95 + level.value) / 2;
    expect(between).toBeGreaterThan(level.value);
    const { stock, stockNotes } = stockAnswer(
      prepared,
      found,
      stockOf([{ ...part(between, 5000), resistance: { nominal: between, tolerance: 0 } }]),
    );
    expect(stock.filter(({ element }) => element === window.element)).toEqual([]);
    expect(stockNotes.find(({ element }) => element === window.element)?.note).toMatch(/^Nothing at hand lies above/);
  });
});

describe('a stock for too many resistors', () => {
  const { circuit, ruleset } = circuitOf('sound-rear-pack');
  const discharge = circuit.elements.find(({ role }) => role === 'discharge');
  const more = Array.from({ length: 8 }, (_, index) => ({ ...discharge, id: `further-${index}` }) as Fields);
  const subject = { circuit: resolved({ ...circuit, elements: [...circuit.elements, ...more] }), ruleset };

  it('is refused with the count', () => {
    const many = Array.from({ length: 10 }, (_, index) => part(1000 + index, 100));
    let caught: unknown;
    try {
      findLimits(subject, stockOf(many));
    } catch (error) {
      caught = error;
    }
    expect(caught).toBeInstanceOf(CircuitFault);
    const [fault] = (caught as CircuitFault).faults;
    // Ten resistors or more, thirty combinations of each.
    expect(fault).toMatchObject({ pointer: '#/stock', code: 'too-costly' });
    expect(Number(/(\d+) judgements/.exec(fault?.detail ?? '')?.[1])).toBeGreaterThan(stockCapacities.stockTrials);
    expect(fault?.detail).toContain(String(stockCapacities.stockTrials));
  });

  it('of few parts is not', () => {
    expect(() => findLimits(subject, stockOf([part(1000, 100)]))).not.toThrow();
  });
});
