import fc from 'fast-check';
import { arrangements, exact, type Wire } from './fixtures.js';

export interface Car {
  readonly elements: readonly Wire[];
  readonly link: readonly [string, string];
}

const LINK = ['lp', 'ln'] as const;

/** One of the arrangements with up to four mistakes: contacts changed, a part gone, a lead added anywhere. */
export const cars: fc.Arbitrary<Car> = fc
  .constantFrom(...Object.values(arrangements))
  .chain((elements) =>
    fc.record({
      elements: fc.constant(elements),
      mistakes: fc.array(mistake(elements), { maxLength: 4 }),
      unlabelled: fc.boolean(),
    }),
  )
  .map(({ elements, mistakes, unlabelled }) => {
    const made = mistakes.reduce<readonly Wire[]>((list, change) => change(list), elements);
    return {
      link: LINK,
      elements: made.map((wire) =>
        Object.fromEntries(
          Object.entries(wire).filter(([key, value]) => value !== undefined && !(unlabelled && key === 'role')),
        ),
      ) as unknown as Wire[],
    };
  });

function mistake(elements: readonly Wire[]): fc.Arbitrary<(list: readonly Wire[]) => readonly Wire[]> {
  const contacts = elements.filter(({ kind }) => kind === 'contact').map(({ id }) => id);
  const nodes = [...new Set(elements.flatMap((element) => element.nodes))];
  const dispensable = elements.filter(({ id, kind }) => kind !== 'accumulator' && id !== 'c-link').map(({ id }) => id);
  const onContact = fc
    .record({
      id: fc.constantFrom(...contacts),
      change: fc.constantFrom<Record<string, unknown>>(
        { rest: 'closed' },
        { rest: 'open' },
        { zone: 'vehicle' },
        { construction: 'solid-state' },
        { construction: undefined },
        { role: 'other' },
        { role: 'isolation-relay' },
        { role: 'precharge-relay' },
        { role: undefined },
        { suppliedBy: 'independent' },
        { openResistance: exact(150e3) },
      ),
    })
    .map(
      ({ id, change }) =>
        (list: readonly Wire[]) =>
          list.map((wire) => (wire.id === id ? { ...wire, ...change } : wire)),
    );
  const gone = fc.constantFrom(...dispensable).map((id) => (list: readonly Wire[]) => {
    const left = list.filter((wire) => wire.id !== id);
    const used = new Set(left.flatMap((wire) => wire.nodes));
    return used.has('lp') && used.has('ln') ? left : list;
  });
  const lead = fc
    .record({
      from: fc.constantFrom(...nodes),
      to: fc.constantFrom(...nodes),
      zone: fc.constantFrom('container', 'vehicle'),
      container: fc.constantFrom(
        ...elements.flatMap(({ container }) => (typeof container === 'string' ? [container] : [])),
      ),
      // Odd values, so that no two paths are equally good.
      ohms: fc.constantFrom(1117.3, 23456.7, 170123.1, 999331.7),
    })
    .filter(({ from, to }) => from !== to)
    .map(({ from, to, zone, container, ohms }) => (list: readonly Wire[]) => [
      ...list.filter(({ id }) => id !== 'r-extra'),
      {
        id: 'r-extra',
        kind: 'resistor',
        nodes: [from, to] as [string, string],
        zone,
        container,
        resistance: exact(ohms),
      },
    ]);
  return fc.oneof({ weight: 3, arbitrary: onContact }, gone, lead);
}
