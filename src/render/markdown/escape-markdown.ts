/**
 * A caller's text as Markdown that shows exactly that text: no markup, no HTML, no table break, no link made of a bare
 * address (CommonMark 0.31, section 2.4: a backslash before ASCII punctuation makes it literal; GitHub Flavored Markdown
 * section 6.9 for the addresses). Line breaks become spaces.
 */
export function escapeMarkdown(text: string): string {
  return text
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/[\\`*_[\]<>|#&~!@]/g, '\\$&')
    .replace(/:\/\//g, '\\://')
    .replace(/\bwww\./gi, (www) => `${www.slice(0, 3)}\\.`)
    .replace(/^[-+=]/, '\\$&')
    .replace(/^(\d+)([.)])(?=\s|$)/, '$1\\$2');
}
