import type { QuantityName } from '../../../circuit/bounded-quantities.js';
import type { CellTarget, Column, Part } from '../column.js';
import { toleranceColumnOf } from '../column.js';

interface More {
  readonly required?: string;
  readonly share?: CellTarget['share'];
}

/** A column whose cell is a quantity that fills one field. */
export function quantityColumn(
  name: string,
  quantity: QuantityName,
  part: Part,
  field: string,
  meaning: string,
  { required, share }: More = {},
): Column {
  return {
    name,
    meaning,
    cell: { form: 'quantity', quantity },
    ...(required === undefined ? {} : { required }),
    target: { part, field, ...(share === undefined ? {} : { share }) },
  };
}

/** A quantity with a tolerance: the column itself, and one for its tolerance. */
export function tolerancedColumns(...args: Parameters<typeof quantityColumn>): Column[] {
  const column: Column = { ...quantityColumn(...args), toleranced: true };
  return [
    column,
    {
      name: toleranceColumnOf(column.name),
      meaning: `Relative tolerance of \`${column.name}\`, unless that cell states it itself (\`± 5 %\`).`,
      cell: { form: 'quantity', quantity: 'tolerance' },
    },
  ];
}

/** A column whose cell is one of a few words, taken over into one field. */
export function wordColumn(name: string, words: readonly string[], part: Part, field: string, meaning: string): Column {
  return { name, meaning, cell: { form: 'word', words }, target: { part, field } };
}

/** A column that decides how the circuit is wired. */
export function wiringColumn(name: string, words: readonly string[], meaning: string, required?: string): Column {
  return { name, meaning, cell: { form: 'word', words }, ...(required === undefined ? {} : { required }) };
}
