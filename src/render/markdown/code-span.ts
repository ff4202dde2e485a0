/**
 * An id or pointer in a code span. The fence is longer than any run of backticks inside (CommonMark 0.31, section 6.1).
 * A `|` is escaped as well, because a table cell is cut before its code spans are read (GitHub Flavored Markdown 4.10).
 */
export function codeSpan(text: string): string {
  const line = text.replace(/\s+/g, ' ').replaceAll('|', '\\|');
  const longest = Math.max(0, ...Array.from(line.matchAll(/`+/g), ([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  const pad = line.startsWith('`') || line.endsWith('`') ? ' ' : '';
  return `${fence}${pad}${line}${pad}${fence}`;
}
