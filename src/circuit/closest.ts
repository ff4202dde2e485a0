/** Longer words are not compared: no field name or sensible id is as long. */
const LONGEST = 64;

/**
 * The candidate that `word` is most likely a misspelling of, or undefined where none is close: at most one letter in
 * three wrong, counted as insertions, deletions, substitutions and swaps of neighbours (optimal string alignment).
 * Upper and lower case count as the same.
 */
export function closest(word: string, candidates: Iterable<string>): string | undefined {
  if (word.length > LONGEST) return undefined;
  const wanted = word.toLowerCase();
  let best: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const most = Math.max(1, Math.floor(Math.max(candidate.length, word.length) / 3));
    if (Math.abs(candidate.length - word.length) > most) continue;
    const distance = editDistance(wanted, candidate.toLowerCase());
    if (distance <= most && (distance < least || (distance === least && best !== undefined && candidate < best))) {
      best = candidate;
      least = distance;
    }
  }
  return best;
}

/** As `suggestionEnd`, but after `most` calls always a full stop: in a request full of faults nobody reads them all. */
export function limitedSuggestions(most = 100): (word: string, candidates: Iterable<string>) => string {
  let left = most;
  return (word, candidates) => {
    left -= 1;
    return left < 0 ? '.' : suggestionEnd(word, candidates);
  };
}

/** `; did you mean `x`?` or a full stop: the end of a sentence about a name that is not known. */
export function suggestionEnd(word: string, candidates: Iterable<string>): string {
  const near = closest(word, candidates);
  return near === undefined ? '.' : `; did you mean \`${near}\`?`;
}

function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const same = a[row - 1] === b[column - 1] ? 0 : 1;
      let cost = Math.min(at(last, column) + 1, at(current, column - 1) + 1, at(last, column - 1) + same);
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        cost = Math.min(cost, at(beforeLast, column - 2) + 1);
      }
      current.push(cost);
    }
    beforeLast = last;
    last = current;
  }
  return at(last, b.length);
}

function at(costs: readonly number[], column: number): number {
  return costs[column] ?? Number.POSITIVE_INFINITY;
}
