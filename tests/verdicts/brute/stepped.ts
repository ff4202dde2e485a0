import type { Circuit, Part } from '../wire.js';
import { Dense, type Branch, type Solved } from './dense.js';
import { ofKind, ohmsOf, type View, wired } from './wired.js';

/** The network at an instant, its capacitors' own voltages by id, and how to ask for more. */
export interface Instant {
  readonly time: number;
  readonly solved: Solved;
  readonly branches: readonly Branch[];
  readonly capacitors: ReadonlyMap<string, number>;
}

/**
 * Steps through time by the implicit Euler method (textbook): in each step a capacitor is its last voltage behind ESR + h/C. It
 * cannot become unstable, and errs by about h/2 in time.
 */
export function* stepped(
  circuit: Circuit,
  view: Omit<View, 'charged'>,
  start: (capacitor: Part) => number,
  { step, steps }: { readonly step: number; readonly steps: number },
): Generator<Instant> {
  const capacitors = ofKind(circuit, 'capacitor').filter((part) => !view.gone?.(part));
  const fixed = wired(circuit, view).filter(({ id }) => capacitors.every((part) => part.id !== id));
  const state = new Map(capacitors.map((part) => [part.id, start(part)]));
  const farads = new Map(
    capacitors.map((part) => [part.id, ohmsOf(part['capacitance'], view.end?.(part) ?? 'nominal')]),
  );
  const branch = (part: Part): Branch => ({
    id: part.id,
    a: part.nodes[0],
    b: part.nodes[1],
    siemens: 1 / (ohmsOf(part['esr'], view.end?.(part) ?? 'nominal') + step / farads.get(part.id)!),
    volts: state.get(part.id)!,
  });
  const dense = new Dense([...fixed, ...capacitors.map(branch)]);
  for (let n = 0; n <= steps; n += 1) {
    const branches = [...fixed, ...capacitors.map(branch)];
    const solved = dense.solve(branches);
    yield { time: n * step, solved, branches, capacitors: new Map(state) };
    for (const part of branches.slice(fixed.length)) {
      state.set(part.id, state.get(part.id)! + (step * solved.current(part)) / farads.get(part.id)!);
    }
  }
}
