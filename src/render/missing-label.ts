/** A load that finds no state that holds is open for a field that may well be stated. */
const MAY_BE_STATED = '/startsAbove';

/** What the fields are called on which an open finding hangs. */
export function missingLabel(missing: readonly string[]): 'Hangs on' | 'Not stated' {
  return missing.some((field) => field.endsWith(MAY_BE_STATED)) ? 'Hangs on' : 'Not stated';
}
