import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plainCircuit, readCircuit, type ResolvedCircuit } from '../../src/circuit/index.js';
import { arbitraryCircuit } from './arbitrary-circuit.js';
import { car, part } from './car.js';
import './seed.js';

function read(input: unknown): ResolvedCircuit {
  const reading = readCircuit(input, '#/circuit');
  if ('faults' in reading) throw new Error(JSON.stringify(reading.faults));
  return reading.circuit;
}

const withoutPointers = (circuit: ResolvedCircuit) => ({
  ...circuit,
  elements: circuit.elements.map((element) => ({ ...element, pointer: '' })),
});

describe('plainCircuit', () => {
  test('read back gives the same circuit but for the pointers', () => {
    fc.assert(
      fc.property(arbitraryCircuit, (input) => {
        const circuit = read(input);
        // Through text, as it goes over the wire.
        const back = read(JSON.parse(JSON.stringify(plainCircuit(circuit))));
        expect(withoutPointers(back)).toEqual(withoutPointers(circuit));
      }),
      { numRuns: 300 },
    );
  });

  test('is the same for the same circuit in other units and another order', () => {
    const input = car();
    const other = car();
    part(other, 'c-link')['capacitance'] = 0.0005;
    part(other, 'r-dis')['resistance'] = '2k2';
    part(other, 'pack')['container'] = 'main';
    other.elements.reverse();
    expect(JSON.stringify(plainCircuit(read(other)))).toBe(JSON.stringify(plainCircuit(read(input))));
  });

  test('gives bare quantities as numbers, toleranced ones as ranges, and the defaults', () => {
    const plain = plainCircuit(read(car()));
    const byId = new Map(plain.elements.map((element) => [element.id, element]));
    expect(byId.get('c-link')).toEqual({
      id: 'c-link',
      kind: 'capacitor',
      nodes: ['lp', 'ln'],
      zone: 'vehicle',
      container: 'main',
      capacitance: 0.0005,
      initialVoltage: 0,
    });
    expect(byId.get('r-pre')).toMatchObject({ resistance: { min: 950, nominal: 1000, max: 1050 } });
    expect(byId.get('inverter')).toMatchObject({
      startsAbove: 0,
      stopsBelow: 0,
      activeIn: ['precharge', 'drive', 'shutdown'],
    });
  });
});

describe('the resolved circuit', () => {
  test('does not depend on the order of the elements, but for the pointers', () => {
    fc.assert(
      fc.property(
        arbitraryCircuit.chain((input) =>
          fc
            .shuffledSubarray(input.elements, { minLength: input.elements.length })
            .map((elements) => [input, { ...input, elements }] as const),
        ),
        ([input, shuffled]) => {
          expect(withoutPointers(read(shuffled))).toEqual(withoutPointers(read(input)));
        },
      ),
    );
  });

  test('points to where each element stands in the request', () => {
    const input = car();
    input.elements.reverse();
    for (const element of read(input).elements) {
      const index = Number(element.pointer.split('/').at(-1));
      expect(element.pointer).toBe(`#/circuit/elements/${index}`);
      expect(input.elements[index]?.['id']).toBe(element.id);
    }
  });

  test('takes for the link the largest capacitor in the vehicle, of equal ones the smallest id', () => {
    const input = car();
    input.elements.push(
      { id: 'c-big', kind: 'capacitor', nodes: ['bp', 'bn'], zone: 'container', capacitance: 1 },
      { id: 'b-link', kind: 'capacitor', nodes: ['d', 'ln'], zone: 'vehicle', capacitance: '500u' },
      { id: 'c-y', kind: 'capacitor', nodes: ['ln', 'ch'], zone: 'vehicle', capacitance: '10 nF' },
    );
    const circuit = read(input);
    expect(circuit.link).toEqual(['d', 'ln']);
    expect(circuit.linkStated).toBe(false);
  });

  test('has no link where none is stated and no capacitor stands in the vehicle', () => {
    const input = car();
    part(input, 'c-link')['zone'] = 'container';
    expect(read(input)).not.toHaveProperty('link');
  });

  test('keeps a link that is stated', () => {
    const input = car();
    input['link'] = ['bp', 'bn'];
    expect(read(input)).toMatchObject({ link: ['bp', 'bn'], linkStated: true });
  });

  test('lets a plug part with its own container where it names none', () => {
    const input = car();
    input.elements.push({ id: 'plug', kind: 'connector', nodes: ['ln', 'x'], zone: 'container', container: 'rear' });
    expect(read(input).elements.find(({ id }) => id === 'plug')).toMatchObject({
      container: 'rear',
      separates: 'rear',
    });
  });

  test('says of a bare quantity that its tolerance is not stated, and of an exact one that it is', () => {
    const input = car();
    part(input, 'r-dis')['resistance'] = { nominal: 2200, tolerance: 0 };
    const circuit = read(input);
    expect(circuit.elements.find(({ id }) => id === 'r-dis')).toMatchObject({ resistance: { toleranceStated: true } });
    expect(circuit.elements.find(({ id }) => id === 'c-link')).toMatchObject({
      capacitance: { toleranceStated: false },
    });
  });
});
