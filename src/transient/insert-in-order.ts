/** Puts a number into a list in order of size. A sort with a comparison allocates more than all else that is done with so short a list. */
export function insertInOrder(list: number[], value: number): void {
  let at = list.length;
  list.push(value);
  for (; at > 0 && (list[at - 1] as number) > value; at -= 1) list[at] = list[at - 1] as number;
  list[at] = value;
}
