import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ConductingPath } from '../../../src/facts/facts.js';
import { defaultSequence } from '../../../src/facts/topology/default-sequence.js';
import { exits } from '../../../src/facts/topology/exits.js';
import { exposures } from '../../../src/facts/topology/exposures.js';
import { pathsPastDisconnect } from '../../../src/facts/topology/paths-past-disconnect.js';
import { separationStates } from '../../../src/facts/topology/separation-states.js';
import { topology } from '../../../src/facts/topology/topology.js';
import { circuitOf, conditions, exact } from './fixtures.js';
import { type Car, cars } from './random-cars.js';

/** Relative: sums in another order differ by rounding only. */
const DIGITS = 9;

const round = (value: number): number => Number(value.toPrecision(DIGITS));
const pathOf = ({ elements, nodes, resistance }: ConductingPath) => ({
  elements,
  nodes,
  resistance: round(resistance),
});

/** Everything the topological facts conclude. Pointers stand for the element, because they follow the order given. */
function conclusions({ elements, link }: Car) {
  const circuit = circuitOf(elements, { link });
  const named = (pointers: readonly string[]) =>
    pointers.map((pointer) => {
      const owner = circuit.elements.find((element) => pointer.startsWith(`${element.pointer}/`));
      return `${owner?.id ?? ''} ${pointer.slice((owner?.pointer ?? '').length)}`;
    });
  const parts = topology(circuit, conditions);
  const { zoneOfNode: _zone, prechargeBypass, ...lists } = parts;
  return {
    ...lists,
    bypass: prechargeBypass && pathOf(prechargeBypass),
    sequence: defaultSequence(circuit, parts, conditions, { release: true }),
    states: separationStates(circuit, parts),
    exits: exits(circuit, parts, conditions).map((exit) => ({
      ...exit,
      path: pathOf(exit.path),
      missing: named(exit.missing),
    })),
    exposures: exposures(circuit, conditions).map((exposure) => ({
      ...exposure,
      path: pathOf(exposure.path),
      resistance: round(exposure.resistance),
      current: round(exposure.current),
      missing: named(exposure.missing),
    })),
    past: pathsPastDisconnect(circuit, conditions).map(pathOf),
  };
}

type Conclusions = ReturnType<typeof conclusions>;

const check = (property: (car: Car, seed: number) => void): void =>
  fc.assert(fc.property(cars, fc.nat(), property), { seed: 20261, numRuns: 200 });

/** A fixed shuffle: a multiplicative generator with modulus 2³¹ − 1 (a textbook one, from memory). */
function shuffled<T>(list: readonly T[], seed: number): T[] {
  let state = (seed % 2147483646) + 1;
  const keyed = list.map((item) => {
    state = (state * 16807) % 2147483647;
    return { item, key: state };
  });
  return keyed.sort((left, right) => left.key - right.key).map(({ item }) => item);
}

describe('the topological facts', () => {
  it('do not depend on the order of the elements', () => {
    check((car, seed) => {
      expect(conclusions({ ...car, elements: shuffled(car.elements, seed) })).toEqual(conclusions(car));
    });
  });

  it('do not depend on what the nodes are called', () => {
    check((car, seed) => {
      const names = [...new Set(car.elements.flatMap(({ nodes }) => nodes))];
      const renamed = new Map(shuffled(names, seed).map((name, index) => [name, `node-${String(index)}`]));
      const to = (name: string): string => renamed.get(name) ?? name;
      const pair = ([a, b]: readonly [string, string]): [string, string] => [to(a), to(b)];
      const after = conclusions({
        link: pair(car.link),
        elements: car.elements.map((wire) => ({ ...wire, nodes: pair(wire.nodes) })),
      });
      expect(after).toEqual(withNames(conclusions(car), to));
    });
  });

  it('mirror when the poles are swapped', () => {
    check((car) => {
      const swapped = conclusions({
        link: [car.link[1], car.link[0]],
        elements: car.elements.map((wire) =>
          wire.kind === 'accumulator' ? { ...wire, nodes: [wire.nodes[1], wire.nodes[0]] } : wire,
        ),
      });
      expect(mirrorFree(swapped)).toEqual(mirrorFree(mirrored(conclusions(car))));
    });
  });

  it('do not change when a resistor is two halves in series', () => {
    check((car, seed) => {
      const resistors = car.elements.filter(({ kind }) => kind === 'resistor');
      const whole = resistors[seed % Math.max(1, resistors.length)];
      if (!whole) return;
      const { nominal } = whole['resistance'] as { nominal: number };
      const half = exact(nominal / 2);
      const split = car.elements.flatMap((wire) =>
        wire === whole
          ? [
              { ...wire, nodes: [wire.nodes[0], 'half-way'] as const, resistance: half },
              { ...wire, id: `${wire.id}~`, nodes: ['half-way', wire.nodes[1]] as const, resistance: half },
            ]
          : [wire],
      );
      const verdicts = (found: Conclusions) => JSON.stringify(summary(found)).replaceAll(`${whole.id}~`, whole.id);
      expect(JSON.parse(verdicts(conclusions({ ...car, elements: split })))).toEqual(
        JSON.parse(JSON.stringify(summary(conclusions(car)))),
      );

      function summary(found: Conclusions) {
        const once = (ids: readonly string[]) =>
          [...new Set(ids.map((id) => (id === `${whole?.id ?? ''}~` ? whole?.id : id)))].sort();
        return {
          ...found,
          prechargeResistors: once(found.prechargeResistors),
          dischargeResistors: once(found.dischargeResistors),
          prechargePath: once(found.prechargePath),
          bypass: found.bypass && once(found.bypass.elements),
          contradictions: [...new Set(found.contradictions.map(({ detail }) => detail.replaceAll('~', '')))],
          states: found.states.map((state) => ({ ...state, gone: once(state.gone) })),
          exits: found.exits
            .map((exit) => ({ ...exit, path: once(exit.path.elements) }))
            .filter(({ path }) => path.length >= 0),
          exposures: found.exposures
            .filter(({ node }) => node !== 'half-way')
            .map((exposure) => ({ ...exposure, touches: once(exposure.touches), path: once(exposure.path.elements) })),
          past: found.past.map(({ elements }) => once(elements)),
        };
      }
    });
  });
});

function withNames(found: Conclusions, to: (name: string) => string): Conclusions {
  const path = <P extends { nodes: readonly string[] }>(given: P): P => ({ ...given, nodes: given.nodes.map(to) });
  const pole = <P extends { node: string }>(given: P): P => ({ ...given, node: to(given.node) });
  return {
    ...found,
    poles: found.poles.map(pole),
    outermost: { positive: to(found.outermost.positive), negative: to(found.outermost.negative) },
    bypass: found.bypass && path(found.bypass),
    exits: found.exits.map((exit) => ({ ...exit, pole: pole(exit.pole), path: path(exit.path) })),
    exposures: found.exposures.map((exposure) => ({
      ...pole(exposure),
      pole: pole(exposure.pole),
      path: path(exposure.path),
    })),
    past: found.past.map(path),
  };
}

function mirrored(found: Conclusions): Conclusions {
  const pole = <P extends { polarity: 'positive' | 'negative' }>(given: P): P => ({
    ...given,
    polarity: given.polarity === 'positive' ? 'negative' : 'positive',
  });
  return {
    ...found,
    poles: found.poles.map(pole),
    outermost: { positive: found.outermost.negative, negative: found.outermost.positive },
    exits: found.exits.map((exit) => ({ ...exit, pole: pole(exit.pole) })),
    exposures: found.exposures.map((exposure) => ({ ...exposure, pole: pole(exposure.pole) })),
  };
}

/** Positive comes first in every list; a mirrored car lists the same in another order, and walks its loops the other way. */
function mirrorFree(found: Conclusions) {
  const sorted = (list: readonly unknown[]): string[] => list.map((item) => JSON.stringify(item)).sort();
  const anyWay = (path: ConductingPath) => sorted(path.elements);
  return {
    ...found,
    poles: sorted(found.poles),
    prechargePath: sorted(found.prechargePath),
    bypass: found.bypass && anyWay(found.bypass),
    exits: sorted(found.exits),
    exposures: sorted(found.exposures),
    past: sorted(found.past.map(anyWay)),
  };
}
