export interface Column {
  readonly title: string;
  /** Numbers stand to the right. */
  readonly align?: 'left' | 'right';
}

/**
 * A table as GitHub Flavored Markdown, padded so that it also reads as plain text; the last column, often a sentence, is not.
 * @param rows cells already escaped, as many in each row as there are columns
 */
export function markdownTable(columns: readonly Column[], rows: ReadonlyArray<readonly string[]>): string {
  const widths = columns.map(({ title, align }, index) => {
    if (index === columns.length - 1 && align !== 'right') return length(title);
    return Math.max(3, ...[title, ...rows.map((row) => row[index] ?? '')].map(length));
  });
  const line = (cells: readonly string[]): string =>
    `| ${columns.map(({ align }, index) => pad(cells[index] ?? '', widths[index] ?? 0, align)).join(' | ')} |`;
  const rule = columns.map(({ align }, index) => {
    const dashes = '-'.repeat(widths[index] ?? 3);
    return align === 'right' ? `${dashes.slice(1)}:` : dashes;
  });
  return [line(columns.map(({ title }) => title)), `| ${rule.join(' | ')} |`, ...rows.map(line)].join('\n');
}

/** Code points, not UTF-16 units: near enough to columns for the letters and signs that reports hold. */
const length = (text: string): number => Array.from(text).length;

function pad(text: string, width: number, align: Column['align']): string {
  const space = ' '.repeat(Math.max(0, width - length(text)));
  return align === 'right' ? space + text : text + space;
}
