import type { Fault } from '../../circuit/fault.js';
import { childPointer } from '../../circuit/pointer.js';
import { acceptedCell } from './accepted-cell.js';
import { toleranceColumnOf } from './column.js';
import { columnNamed } from './columns/columns.js';
import { makeRowFault, ROW } from './make-row-fault.js';
import type { CellValue } from './read-cell.js';

/** The cells of a row that are stated. What is asked for and not there becomes a fault, told once. */
export class RowCells {
  readonly faults: Fault[] = [];

  constructor(
    private readonly values: ReadonlyMap<string, CellValue>,
    /** Columns whose cells cannot be read: they are stated, and their fault has been told. */
    private readonly unread: ReadonlySet<string>,
  ) {}

  /** True where a fault of that column has been told already. */
  isFaulty(name: string): boolean {
    return this.unread.has(name) || this.faults.some(({ pointer }) => pointer === childPointer(ROW, name));
  }

  has(name: string): boolean {
    return this.values.has(name) || this.unread.has(name);
  }

  /** The text or word of a cell; undefined where it is not stated. */
  text(name: string): string | undefined {
    const value = this.values.get(name);
    return value?.form === 'text' || value?.form === 'word' ? value.text : undefined;
  }

  words(name: string): readonly string[] | undefined {
    const value = this.values.get(name);
    return value?.form === 'words' ? value.words : undefined;
  }

  yes(name: string): boolean | undefined {
    const value = this.values.get(name);
    return value?.form === 'yes-no' ? value.yes : undefined;
  }

  number(name: string): number | undefined {
    const value = this.values.get(name);
    return value?.form === 'number' ? value.number : undefined;
  }

  /** The tolerance that a quantity's own cell states, else that of the column beside it. */
  tolerance(name: string): number | undefined {
    const value = this.values.get(name);
    const own = value?.form === 'number' ? value.tolerance : undefined;
    return own ?? this.number(toleranceColumnOf(name));
  }

  /** Adds the fault of a missing cell where that cell is not stated. */
  require(name: string, why: string): void {
    if (this.has(name)) return;
    const detail = `\`${name}\` is not stated: ${why}`;
    this.faults.push(makeRowFault(name, 'missing-field', detail, acceptedCell(columnNamed(name))));
  }

  /** Adds the fault of a cell that can be read and does not suit another one. What its column accepts is no help there. */
  unsuitable(name: string, detail: string): void {
    this.faults.push(makeRowFault(name, 'unsuitable-cell', detail));
  }
}
