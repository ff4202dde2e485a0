import type { Dimension } from './bounded-quantities.js';

interface Units {
  /** The SI unit, as answers write it; empty for a ratio. */
  readonly si: string;
  /** Spellings that stand for the SI unit. */
  readonly spellings: readonly string[];
  /** False where no prefix may stand before them. */
  readonly prefixed: boolean;
  /** Further units by their power of ten. */
  readonly others?: Readonly<Record<string, number>>;
  /** Letters that stand alone behind a number, or in place of its decimal point (IEC 60062). */
  readonly letters?: Readonly<Record<string, number>>;
}

/** Powers of ten. The two code points of micro: U+00B5 (the sign) and U+03BC (the Greek letter). */
const PREFIXES: Readonly<Record<string, number>> = {
  '': 0,
  p: -12,
  n: -9,
  u: -6,
  '\u00B5': -6,
  '\u03BC': -6,
  m: -3,
  k: 3,
  K: 3,
  M: 6,
  G: 9,
};

/** Ω has two code points: U+03A9 (the Greek letter) and U+2126 (the sign). */
const UNITS: Readonly<Record<Dimension, Units>> = {
  voltage: { si: 'V', spellings: ['V'], prefixed: true },
  current: { si: 'A', spellings: ['A'], prefixed: true },
  resistance: {
    si: 'Ω',
    spellings: ['\u03A9', '\u2126', 'ohm', 'ohms', 'Ohm', 'Ohms', 'OHM', 'R'],
    prefixed: true,
    // IEC 60062: L is milli, so that m need not be told from M. A lone m is refused, see `readQuantity`.
    letters: { R: 0, r: 0, L: -3, k: 3, K: 3, M: 6, G: 9 },
  },
  capacitance: {
    si: 'F',
    spellings: ['F'],
    prefixed: true,
    letters: { p: -12, n: -9, u: -6, '\u00B5': -6, '\u03BC': -6, m: -3, F: 0 },
  },
  time: { si: 's', spellings: ['s'], prefixed: true },
  energy: { si: 'J', spellings: ['J'], prefixed: true },
  power: { si: 'W', spellings: ['W'], prefixed: true },
  temperature: { si: '°C', spellings: ['\u00B0C', '\u2103'], prefixed: false },
  thermalResistance: { si: 'K/W', spellings: ['K/W', '\u00B0C/W'], prefixed: true },
  heatCapacity: { si: 'J/K', spellings: ['J/K', 'J/\u00B0C'], prefixed: true },
  length: { si: 'm', spellings: ['m'], prefixed: true, others: { cm: -2 } },
  ratio: { si: '', spellings: [''], prefixed: false, others: { '%': -2 } },
};

export const DIMENSIONS = Object.keys(UNITS) as readonly Dimension[];

const POWERS = new Map<Dimension, ReadonlyMap<string, number>>(
  DIMENSIONS.map((dimension) => [dimension, powersOf(UNITS[dimension])]),
);

function powersOf(units: Units): ReadonlyMap<string, number> {
  const powers = new Map<string, number>(Object.entries(units.others ?? {}));
  const prefixes = units.prefixed ? Object.entries(PREFIXES) : [['', 0] as const];
  for (const spelling of units.spellings) {
    for (const [prefix, power] of prefixes) powers.set(prefix + spelling, power);
  }
  return powers;
}

/** The power of ten that a unit, prefix included, stands for in a dimension; undefined where it is not one of its units. */
export function powerOfUnit(dimension: Dimension, unit: string): number | undefined {
  return POWERS.get(dimension)?.get(unit);
}

/** The power of ten of a lone letter behind a number or in place of its decimal point; undefined where none is meant. */
export function powerOfLetter(dimension: Dimension, letter: string): number | undefined {
  const letters = UNITS[dimension].letters;
  return letters !== undefined && Object.hasOwn(letters, letter) ? letters[letter] : undefined;
}

/** The unit in which a plain number counts. */
export function siUnit(dimension: Dimension): string {
  return UNITS[dimension].si;
}
