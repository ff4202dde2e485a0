import { showPlace } from '../show-place.js';

/**
 * Where a car's fault is, or what it does not state, for a summary.
 * @param mark how a name is set off from words; the whole of a row or an item has no name
 */
export function lookPlace(
  pointer: string,
  element: string | null | undefined,
  mark: (name: string) => string = (name) => name,
): string {
  const name = showPlace(pointer, element);
  if (name !== '') return mark(name);
  return pointer === '#/row' ? 'the whole row' : 'the whole item';
}
