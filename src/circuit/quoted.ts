const LONGEST = 40;

/** A value of the caller's in backticks, shortened, on one line: for use in a sentence. */
export function quoted(value: unknown): string {
  const text = typeof value === 'string' ? value : value === undefined ? 'nothing' : JSON.stringify(value);
  // Cut before a character of two units, never inside it.
  const cut = text.slice(0, LONGEST).replace(/[\uD800-\uDBFF]$/, '');
  // Control characters would break the line the sentence stands on.
  const line = cut.replace(/[\p{Cc}`]/gu, ' ');
  return `\`${text.length > LONGEST ? `${line}…` : line}\``;
}

/** `a`, `b` or `c`. */
export function quotedList(values: readonly string[], conjunction: 'or' | 'and' = 'or'): string {
  const items = values.map(quoted);
  const last = items.at(-1) ?? '';
  return items.length < 2 ? last : `${items.slice(0, -1).join(', ')} ${conjunction} ${last}`;
}
