import type { Separator } from './detect-separator.js';
import { splitCells } from './split-cells.js';

/** Characters by which a person knows a cell again. */
const SHOWN = 40;

/**
 * What can be read of a line that breaks off within a cell: the cells ahead of that one, and how it begins. Behind a quote
 * that is never closed it goes on to the line's end, since nobody knows which of the separators are its own.
 */
export function begunCells(line: string, separator: Separator): string[] {
  const cells = splitCells(line, separator);
  const broken = cells.pop() ?? '';
  // Cut before a character of two units, never inside it.
  const shown = broken.slice(0, SHOWN).replace(/[\uD800-\uDBFF]$/, '');
  return [...cells, broken.length > SHOWN ? `${shown}…` : broken];
}
