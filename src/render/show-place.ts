/**
 * Where a fault is, for people: of a row the column's name, which is all that a person with a table knows; in an element its
 * id and the field; of anything else the steps of the pointer. Empty for the whole.
 * @param pointer a URI fragment, `#/row/meter_place` or `#/circuit/elements/3/resistance`
 * @param element its id, where the place is in one whose id is known
 */
export function showPlace(pointer: string, element?: string | null): string {
  const [, field = ''] = /^#\/circuit\/elements\/\d+(?:\/(.*))?$/.exec(pointer) ?? [];
  if (typeof element === 'string') {
    return `elements "${element}"${field === '' ? '' : `: ${field.replaceAll('/', '.')}`}`;
  }
  return pointer.replace(/^#\/?(?:row(?:\/|$))?/, '');
}
