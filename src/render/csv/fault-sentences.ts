/** A fault for people: where it is, as `showPlace` says it, a whole sentence, and what would be accepted. */
export interface PlacedFault {
  readonly place: string;
  readonly detail: string;
  readonly accepted?: string;
}

/** Faults that differ in nothing but their places, and in what is accepted there. */
interface Alike {
  readonly sentence: string;
  /** What is accepted at the first place; empty where the sentence says it, or nobody does. */
  readonly accepted: string;
  /** The other places, by what is accepted there. */
  readonly others: Map<string, string[]>;
}

/**
 * Faults as sentences for one cell. Those that differ in nothing but their places are told once, the other places behind the
 * first: a row that lacks eleven cells would else say the same eleven times. What is accepted follows where the sentence
 * does not hold it already.
 */
export function faultSentences(faults: readonly PlacedFault[]): string[] {
  const groups = new Map<string, Alike>();
  for (const { place, detail, accepted: stated = '' } of faults) {
    const name = `\`${place}\``;
    const named = place !== '' && detail.includes(name);
    const key = named ? detail.replaceAll(name, '``') : detail;
    const accepted = holds(detail, stated) ? '' : stated;
    const known = groups.get(key);
    if (known === undefined) {
      const sentence = place === '' || named ? detail : `${place}: ${detail}`;
      groups.set(key, { sentence, accepted, others: new Map() });
    } else {
      const places = known.others.get(accepted);
      if (places === undefined) known.others.set(accepted, [named ? name : place]);
      else places.push(named ? name : place);
    }
  }
  return Array.from(groups.values(), told);
}

/** `a` is wrong. Accepted: `x`. The same goes for `b`; `c` (accepted: `y`). */
function told({ sentence, accepted, others }: Alike): string {
  const end = accepted === '' ? '' : ` Accepted: ${accepted}.`;
  // Those that accept the same as the first stand next to it.
  const sorted = [...others].sort(([a], [b]) => Number(b === accepted) - Number(a === accepted));
  const same = sorted.map(([words, places]) => {
    const list = places.join(', ');
    return words === accepted || words === '' ? list : `${list} (accepted: ${words})`;
  });
  return `${sentence}${end}${same.length === 0 ? '' : ` The same goes for ${same.join('; ')}.`}`;
}

/** Whether a sentence says what is accepted: in the same words, or by naming every word that is. */
function holds(detail: string, accepted: string): boolean {
  const words = accepted.match(/`[^`]*`/g) ?? [];
  return detail.includes(accepted) || (words.length > 0 && words.every((word) => detail.includes(word)));
}
