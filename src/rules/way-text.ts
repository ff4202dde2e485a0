/** The elements of a way for a sentence: `through f1, k1`, or `directly` where it has none. */
export function wayText(elements: readonly string[]): string {
  return elements.length === 0 ? 'directly' : `through ${elements.join(', ')}`;
}
