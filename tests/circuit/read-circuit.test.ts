import { describe, expect, test } from 'vitest';
import { readCircuit } from '../../src/circuit/index.js';
import { car, part } from './car.js';
import { faultCases, spoilt } from './fault-cases.js';
import { faultsOf } from './faults-of.js';

describe('readCircuit accepts', () => {
  test('a sound car', () => {
    expect(faultsOf(readCircuit(car(), '#/circuit'))).toEqual([]);
  });

  test('a relay whose contacts all move, each in its direction', () => {
    const input = car();
    part(input, 'pre')['relay'] = 'k1';
    part(input, 'dis')['relay'] = 'k1';
    input['control'] = { sequence: [{ at: 0, close: ['pre'], open: ['dis'] }] };
    expect(faultsOf(readCircuit(input, '#/circuit'))).toEqual([]);
  });

  test('steps at equal times, and sums of times that only differ by rounding', () => {
    const input = car();
    // 0.1 + 0.2 is above 0.3 in doubles.
    input['control'] = {
      sequence: [{ at: 0.1 }, { after: 0.2 }, { at: 0.3 }, { at: 0.3 }, { when: { linkRatio: 0.9 } }],
    };
    expect(faultsOf(readCircuit(input, '#/circuit'))).toEqual([]);
  });

  test('a plug that parts with the container that it names', () => {
    const input = car();
    input.elements.push({ id: 'plug', kind: 'connector', nodes: ['ln', 'x'], zone: 'vehicle', separates: 'main' });
    expect(faultsOf(readCircuit(input, '#/circuit'))).toEqual([]);
  });
});

describe('readCircuit finds exactly the faults of', () => {
  test.each(faultCases.map((faultCase) => [faultCase.what, faultCase] as const))('%s', (_what, faultCase) => {
    const reading = readCircuit(spoilt(faultCase), '#/circuit');
    expect(faultsOf(reading)).toEqual(faultCase.faults);
    for (const fault of 'faults' in reading ? reading.faults : []) {
      expect(fault.detail).toMatch(/^[^\n]+[.?]$/);
      expect(fault.detail).not.toMatch(/undefined|\[object|NaN/);
    }
  });
});

describe('readCircuit finds every fault at once', () => {
  test('of form, of quantities and of meaning, in different elements', () => {
    const input = car();
    part(input, 'air-neg')['resistence'] = '1 mΩ';
    part(input, 'pre')['operateTime'] = '20 mV';
    part(input, 'r-pre')['resistance'] = null;
    part(input, 'r-dis')['id'] = 'dis';
    input['link'] = ['lp', 'lnn'];
    input['control'] = { sequence: [{ at: 0, close: ['air-nge'] }] };
    expect(faultsOf(readCircuit(input, '#/circuit'))).toEqual([
      ['#/circuit/control/sequence/0/close/0', 'unknown-element'],
      ['#/circuit/elements/2/resistence', 'unknown-field'],
      ['#/circuit/elements/3/operateTime', 'wrong-unit'],
      ['#/circuit/elements/4/resistance', 'wrong-type'],
      ['#/circuit/elements/7/id', 'duplicate-id'],
      ['#/circuit/link/1', 'unknown-node'],
    ]);
  });

  test('and no reference to an element whose id cannot be read counts as a second one', () => {
    const input = car();
    part(input, 'air-neg')['id'] = 7;
    input['control'] = { sequence: [{ at: 0, close: ['air-neg'] }] };
    expect(faultsOf(readCircuit(input, '#/circuit'))).toEqual([['#/circuit/elements/2/id', 'wrong-type']]);
  });

  test('and no reference to a node of an element whose nodes cannot be read', () => {
    const input = car();
    part(input, 'r-dis')['nodes'] = 'd-ch';
    input['chassis'] = 'ch';
    expect(faultsOf(readCircuit(input, '#/circuit'))).toEqual([['#/circuit/elements/7/nodes', 'wrong-type']]);
  });

  test('and an accumulator of misspelt kind is not missed besides', () => {
    const input = car();
    part(input, 'pack')['kind'] = 'acumulator';
    expect(faultsOf(readCircuit(input, '#/circuit'))).toEqual([['#/circuit/elements/0/kind', 'not-one-of']]);
  });
});

describe('readCircuit says', () => {
  const detailOf = (input: unknown) => {
    const reading = readCircuit(input, '#/circuit');
    return 'faults' in reading ? reading.faults.map((fault) => fault.detail) : [];
  };

  test('what a misspelt field was meant to be', () => {
    const input = car();
    part(input, 'dis')['releaseTimes'] = 0.1;
    expect(detailOf(input)).toEqual(['`releaseTimes` is not a known field; did you mean `releaseTime`?']);
  });

  test('which kinds there are where none is like the one given', () => {
    const input = car();
    part(input, 'dis')['kind'] = 'gearbox';
    expect(detailOf(input)).toContain(
      '`gearbox` is not a known kind: it must be `accumulator`, `fuse`, `contact`, `connector`, `disconnect`, `resistor`, `capacitor`, `meter`, `load` or `machine`.',
    );
    part(input, 'dis')['kind'] = 'contct';
    expect(detailOf(input)).toContain('`contct` is not a known kind; did you mean `contact`?');
  });

  test('how many elements there are where they are too many', () => {
    const input = car();
    const [pack] = input.elements;
    expect(detailOf({ ...input, elements: Array.from({ length: 201 }, () => pack) })).toContain(
      '`elements` must have at most 200 items, not 201.',
    );
  });

  test('how long a text is that is too long, by its characters', () => {
    // A character beyond the basic plane counts as one (RFC 8259: two code units of UTF-16 stand for it).
    expect(detailOf({ ...car(), title: '🂡'.repeat(201) })).toEqual([
      '`title` must have at most 200 characters, not 201.',
    ]);
  });

  test('that null is nothing', () => {
    const input = car();
    input['title'] = null;
    expect(detailOf(input)).toEqual(['`title` must not be null.']);
  });

  test('which id was meant', () => {
    const input = car();
    input['indicator'] = { watches: ['air-poz'] };
    expect(detailOf(input)).toEqual(['No element has the id `air-poz`; did you mean `air-pos`?']);
  });

  test('what a union accepts, once', () => {
    const input = car();
    part(input, 'r-dis')['resistance'] = [];
    const reading = readCircuit(input, '#/circuit');
    expect('faults' in reading && reading.faults).toEqual([
      {
        pointer: '#/circuit/elements/7/resistance',
        code: 'wrong-type',
        detail: 'The value must be a resistance, not a list.',
        accepted:
          'a number in Ω, text with a unit such as `4.7 kΩ` or `4.7 kohm`, or a letter code such as `4k7`; or `{"nominal": …, "tolerance": 0.05}`; or `{"min": …, "nominal": …, "max": …}`',
      },
    ]);
  });
});
