/** One line that says how far long work is. */
export interface Progress {
  readonly show: (text: string) => void;
  /** Takes the line away again. */
  readonly clear: () => void;
}

// ECMA-48 section 8.3.41, erase in line: the whole of it.
const CLEAR = '\r\u001b[2K';

/** On a terminal a line that rewrites itself; elsewhere nothing, since a file would keep every count. */
export function progressOn(write: (text: string) => void, terminal: boolean): Progress {
  if (!terminal) return { show: () => undefined, clear: () => undefined };
  return { show: (text) => write(`${CLEAR}${text}`), clear: () => write(CLEAR) };
}
