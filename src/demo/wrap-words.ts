/** A space that may end a line: not the one between a number and its unit. */
const BREAK = / (?!(?:[GMkmµnp]?[ΩVAWJFs]|%|°C)(?![\p{L}\p{N}]))/u;

/** Text in lines of at most `width` characters, broken between words; a longer word has a line of its own. */
export function wrapWords(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(BREAK)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && longer.length > width) {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
}
