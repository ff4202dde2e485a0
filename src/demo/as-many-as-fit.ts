/** A list on one line: at least its first item, then as many as `width` has room for, and how many are left out. */
export function asManyAsFit(before: string, items: readonly string[], width: number): string {
  if (items.length === 0) return `${before}none`;
  for (let count = items.length; count > 1; count -= 1) {
    const line = listed(before, items, count);
    if (line.length <= width) return line;
  }
  return listed(before, items, 1);
}

function listed(before: string, items: readonly string[], count: number): string {
  const left = items.length - count;
  return `${before}${items.slice(0, count).join(', ')}${left === 0 ? '' : ` and ${left} more`}`;
}
