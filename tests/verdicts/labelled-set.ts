import { cars } from './arrangements.js';
import type { Car } from './car.js';
import { type Book, books } from './books.js';
import type { Mistake } from './mistake.js';
import { dischargeMistakes } from './mistakes/discharge.js';
import { isolationMistakes } from './mistakes/isolation.js';
import { prechargeMistakes } from './mistakes/precharge.js';
import { ratingMistakes } from './mistakes/ratings.js';
import type { Circuit } from './wire.js';

export interface Labelled {
  readonly name: string;
  readonly car: Car;
  readonly book: Book;
  readonly circuit: Circuit;
  /** Rules that must be violated, and no others; in order. */
  readonly violated: readonly string[];
  readonly undetermined: readonly string[];
  /** Either answer will do. */
  readonly tolerated: readonly string[];
}

export const mistakes: readonly Mistake[] = [
  ...prechargeMistakes,
  ...dischargeMistakes,
  ...isolationMistakes,
  ...ratingMistakes,
];

const sound: Mistake = { id: 'sound', change: ({ circuit }) => circuit, violates: [] };

/** One car with one mistake under one book; undefined where the car cannot have it or nobody could label it by hand. */
export function label(car: Car, mistake: Mistake, book: Book): Labelled | undefined {
  const circuit = mistake.change(car);
  const violates = typeof mistake.violates === 'function' ? mistake.violates(car, book) : mistake.violates;
  if (circuit === undefined || violates === undefined) return undefined;
  const inForce = (rules: readonly string[]) => rules.filter((rule) => !book.silent.includes(rule)).sort();
  return {
    name: `${car.name}, ${mistake.id}, ${book.id}`,
    car,
    book,
    circuit,
    violated: inForce(violates),
    undetermined: inForce(mistake.undetermined ?? []),
    tolerated: mistake.tolerated ?? [],
  };
}

/** Every mistake in every car that can have it, under every book: some thousands. */
export function everything(): readonly Labelled[] {
  return cars.flatMap((car) =>
    [sound, ...mistakes].flatMap((mistake) => books.flatMap((book) => label(car, mistake, book) ?? [])),
  );
}

/**
 * The sound cars under every book, and each mistake in a few of the cars that can have it under the first book and in one
 * under another: the cars take turns, so that every one of them has its share, and so do the books.
 */
export function labelledSet(carsEach: number): readonly Labelled[] {
  const soundOnes = cars.flatMap((car) => books.flatMap((book) => label(car, sound, book) ?? []));
  const faulty = mistakes.flatMap((mistake, turn) => {
    const able = cars.filter((car) => mistake.change(car) !== undefined);
    const order = able.map((_, index) => able[(index + turn * 4) % able.length]!);
    const [first, ...others] = books;
    const found = order.flatMap((car) => label(car, mistake, first!) ?? []).slice(0, carsEach);
    const turned = others.map((_, index) => others[(index + turn) % others.length]!);
    const candidates = turned.flatMap((book) => order.toReversed().flatMap((car) => label(car, mistake, book) ?? []));
    // A book that has something against it says more than one that has not.
    const elsewhere = [candidates.find(({ violated }) => violated.length > 0) ?? candidates[0]].flatMap(
      (labelled) => labelled ?? [],
    );
    return [...found, ...elsewhere];
  });
  return [...soundOnes, ...faulty];
}
