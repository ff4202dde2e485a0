/** A fault for people: where it is, as `showPlace` says it, and a whole sentence. */
export interface PlacedFault {
  readonly place: string;
  readonly detail: string;
}

/**
 * Faults as sentences for one cell. Those that differ in nothing but their places are told once, the other places behind the
 * first: a row that lacks eleven cells would else say the same eleven times.
 */
export function faultSentences(faults: readonly PlacedFault[]): string[] {
  const alike = new Map<string, { readonly sentence: string; readonly others: string[] }>();
  for (const { place, detail } of faults) {
    const name = `\`${place}\``;
    const named = place !== '' && detail.includes(name);
    const key = named ? detail.replaceAll(name, '``') : detail;
    const known = alike.get(key);
    if (known !== undefined) known.others.push(named ? name : place);
    else alike.set(key, { sentence: place === '' || named ? detail : `${place}: ${detail}`, others: [] });
  }
  return Array.from(alike.values(), ({ sentence, others }) =>
    others.length === 0 ? sentence : `${sentence} The same goes for ${others.join(', ')}.`,
  );
}
