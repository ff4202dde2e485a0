export type Ink = 'red' | 'yellow' | 'bold' | 'plain';
export type Paint = (text: string, ink: Ink) => string;

// ECMA-48 section 8.3.117, select graphic rendition.
const CODES: Readonly<Record<Exclude<Ink, 'plain'>, number>> = { red: 31, yellow: 33, bold: 1 };

/** Colours text, or leaves it as it is. No verdict is painted green: green would read as a permission. */
export function paintFor(coloured: boolean): Paint {
  return (text, ink) => (coloured && ink !== 'plain' ? `\u001b[${CODES[ink]}m${text}\u001b[0m` : text);
}
