import type { QuantityName } from '../../circuit/bounded-quantities.js';

/** What a cell holds. `words` are accepted in any case, with spaces, hyphens or underscores between their parts. */
export type CellForm =
  | { readonly form: 'text' }
  | { readonly form: 'word'; readonly words: readonly string[] }
  | { readonly form: 'words'; readonly words: readonly string[] }
  | { readonly form: 'yes-no' }
  | { readonly form: 'count'; readonly minimum: number; readonly maximum: number }
  | { readonly form: 'quantity'; readonly quantity: QuantityName };

/** A field of the circuit that a cell fills: of every element drawn as that part, or of the circuit itself. */
export interface CellTarget {
  readonly part: Part;
  /** `/ratings/power` */
  readonly field: string;
  /** Where several elements make up the part: each gets its share of the whole (series cells, parallel capacitors). */
  readonly share?: 'divided' | 'multiplied';
}

/** What the drawing of a row is made of. */
export type Part =
  | 'circuit'
  | 'pack'
  | 'main-fuse'
  | 'isolation-relay'
  | 'precharge-relay'
  | 'precharge-fuse'
  | 'precharge-resistor'
  | 'plug'
  | 'disconnect'
  | 'meter'
  | 'link-capacitor'
  | 'discharge-relay'
  | 'discharge-fuse'
  | 'discharge-resistor'
  | 'point-resistor';

export interface Column {
  readonly name: string;
  readonly meaning: string;
  readonly cell: CellForm;
  /** When a cell must be filled, since without it the circuit cannot be drawn; absent: an empty cell is 'not stated'. */
  readonly required?: string;
  readonly target?: CellTarget;
  /** True where the field does not hold the cell as it stands: the drawing turns the word into nodes, the range into one value. */
  readonly drawn?: true;
  /** True where the cell may carry its tolerance (`680 µF ± 20 %`); then a column `…_tolerance` stands beside it. */
  readonly toleranced?: true;
}

/** The name of the column with the tolerance of another. */
export function toleranceColumnOf(name: string): string {
  return `${name}_tolerance`;
}
