/**
 * Where a fault is, for people: of a row the column's name, which is all that a person with a table knows; of anything
 * else the steps of the pointer. Empty for the whole.
 * @param pointer a URI fragment, `#/row/meter_place` or `#/circuit/elements/3/resistance`
 */
export function showPlace(pointer: string): string {
  return pointer.replace(/^#\/?(?:row(?:\/|$))?/, '');
}
