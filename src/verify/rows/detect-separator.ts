export type Separator = ',' | ';' | '\t';

/** In order of preference where a line has them alike. */
const SEPARATORS: readonly Separator[] = [',', ';', '\t'];

/** What separates the cells of a table, from its first line: the one that stands there most often outside quotes. */
export function detectSeparator(line: string): Separator {
  const bare = line.replace(/"[^"]*"?/g, '');
  const count = (separator: Separator): number => bare.split(separator).length;
  return SEPARATORS.reduce((best, separator) => (count(separator) > count(best) ? separator : best));
}
