import { describe, expect, test } from 'vitest';
import { examples } from './read-examples.js';

/** Fields of each kind in the wire contract beyond id, kind, nodes and zone; the sound car states every one of them. */
const FIELDS: Readonly<Record<string, readonly string[]>> = {
  accumulator: ['voltage', 'resistance'],
  fuse: ['resistance', 'ratedCurrent', 'ratedDcVoltage', 'breakingCurrent'],
  contact: [
    'role',
    'rest',
    'construction',
    'suppliedBy',
    'relay',
    'auxiliary',
    'resistance',
    'operateTime',
    'releaseTime',
    'ratings',
  ],
  connector: ['separates', 'resistance', 'ratedVoltage'],
  disconnect: ['resistance', 'ratedVoltage'],
  resistor: ['resistance', 'role', 'technology', 'mounting', 'ambientMax', 'ratings', 'thermal', 'surroundings'],
  capacitor: ['capacitance', 'esr', 'ratedVoltage', 'initialVoltage'],
  meter: ['resistance', 'role'],
  load: ['startsAbove', 'stopsBelow', 'activeIn'],
};

describe('the invented event’s cars', () => {
  test('there are at least ten, some sound and some not', () => {
    expect(examples.length).toBeGreaterThanOrEqual(10);
    const verdicts = new Set(examples.map(({ example }) => example.expected.verdict));
    expect([...verdicts].sort()).toEqual(['no-violation-found', 'undetermined', 'violation-found']);
  });

  test('each car’s name, and each title, stands once', () => {
    const names = examples.map(({ example }) => example.request.circuit.title);
    expect(new Set(names).size).toBe(names.length);
    expect(new Set(examples.map(({ example }) => example.title)).size).toBe(examples.length);
  });

  describe.each(examples)('$file', ({ file, example }) => {
    const { circuit } = example.request;

    test('its id is its file name', () => {
      expect(`${example.id}.json`).toBe(file);
    });

    test('the expected verdict follows from the expected findings', () => {
      const { verdict, violated, undetermined } = example.expected;
      const either =
        violated.length > 0 ? 'violation-found' : undetermined.length > 0 ? 'undetermined' : 'no-violation-found';
      expect(verdict).toBe(either);
      expect([...violated].sort()).toEqual(violated);
      expect([...undetermined].sort()).toEqual(undetermined);
    });

    test('no id stands twice and no node hangs alone except measuring points', () => {
      const ids = circuit.elements.map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
      const uses = new Map<string, number>();
      for (const node of circuit.elements.flatMap(({ nodes }) => nodes)) uses.set(node, (uses.get(node) ?? 0) + 1);
      const points = Object.values(circuit['measuringPoints'] as Readonly<Record<string, string>>);
      expect([...uses].filter(([node, count]) => count === 1 && !points.includes(node))).toEqual([]);
      for (const point of points) expect(uses.get(point)).toBe(1);
    });
  });

  test('sound-rear-pack states every field of every element that is not itself a leak', () => {
    const sound = examples.find(({ file }) => file === 'sound-rear-pack.json');
    const silent = (sound?.example.request.circuit.elements ?? []).flatMap((element) =>
      (FIELDS[element.kind] ?? [])
        .filter((field) => element[field] === undefined)
        .map((field) => `${element.id}.${field}`),
    );
    expect(sound).toBeDefined();
    expect(silent).toEqual([]);
  });
});
