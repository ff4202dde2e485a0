import { acceptedForm } from '../../circuit/accepted-form.js';
import { boundedQuantity } from '../../circuit/bounded-quantities.js';
import { quotedList } from '../../circuit/quoted.js';
import type { Column } from './column.js';

/** What a column's cell accepts, in one line for the person who fills it. */
export function acceptedCell({ cell, toleranced }: Column): string {
  switch (cell.form) {
    case 'text':
      return 'any text on one line';
    case 'yes-no':
      return '`yes` or `no`';
    case 'word':
      return cell.words.length === 1 ? quotedList(cell.words) : `one of ${quotedList(cell.words)}`;
    case 'words':
      return `one or more of ${quotedList(cell.words, 'and')}, separated by spaces`;
    case 'count':
      return `a whole number from ${cell.minimum} to ${cell.maximum}`;
    case 'quantity':
      return `${acceptedForm(boundedQuantity(cell.quantity))}${toleranced === true ? '; a tolerance may follow: `± 5 %`' : ''}`;
  }
}
