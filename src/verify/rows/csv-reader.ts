import { begunCells } from './begun-cells.js';
import { detectSeparator, type Separator } from './detect-separator.js';
import { splitCells } from './split-cells.js';

/** A record of a table; of one that cannot be read as much as can. */
export interface CsvRecord {
  /** On which it begins, from 1. */
  readonly line: number;
  /** On which it ends, where that is a later one: a quoted cell holds a line break. */
  readonly lastLine?: number;
  readonly cells: readonly string[];
  readonly refused?: 'too-long' | 'unclosed-quote';
}

export interface CsvLimits {
  /** Characters of one record. */
  readonly characters: number;
  /** Lines that one record may spread over, by breaks inside quoted cells. */
  readonly lines: number;
}

type State = 'cell-start' | 'plain' | 'quoted' | 'closing' | 'closed';

const EXCEL_SEPARATOR_LINE = /^sep=([,;\t])$/i;
const BOM = '\uFEFF';

/**
 * Reads a table (RFC 4180 and what spreadsheets make of it) piece by piece: any of the three line ends, a byte order
 * mark, a first line `sep=;`, a separator found from the first line, quoted cells with doubled quotes and line breaks.
 * Records whose cells are all empty are left out.
 *
 * A quote that is never closed would swallow the rest of the file: within the limits the reader goes back, refuses the
 * line on which the record begins, and reads on at the next. The same where text follows the closing quote of a cell that
 * runs over several lines: that quote opens a cell of a later row, and two cars would become one.
 */
export class CsvReader {
  /** Of the file; undefined until its first line has been read. */
  separator: Separator | undefined;
  /** True where the file begins with a byte order mark. */
  marked = false;

  #text = '';
  #at = 0;
  #state: State = 'cell-start';
  /** The line on which the record begins. */
  #line = 1;
  /** Line breaks inside the record so far, and where the line after the first of them begins. */
  #breaks = 0;
  #secondLine = -1;
  /** True where the quoted cell being read holds a line break. */
  #spans = false;
  /** True while the rest of a line that is too long is thrown away. */
  #skipping = false;
  #begun = false;

  constructor(private readonly limits: CsvLimits) {}

  /** The records that are complete with these further characters. */
  push(text: string): CsvRecord[] {
    this.#text += text;
    return this.#read(false);
  }

  /** The records that the end of the file completes. */
  end(): CsvRecord[] {
    return this.#read(true);
  }

  #read(ended: boolean): CsvRecord[] {
    const found: CsvRecord[] = [];
    if (!this.#begin(ended)) return found;
    for (;;) {
      const record = this.#next(ended);
      if (record === undefined) return found;
      if (record.refused !== undefined || record.cells.some((cell) => cell.trim() !== '')) found.push(record);
    }
  }

  /** Byte order mark and separator; false while the first line is not complete. */
  #begin(ended: boolean): boolean {
    if (this.#begun) return true;
    const end = this.#text.search(/[\r\n]/);
    // A carriage return may be the first half of a line end.
    const complete = end >= 0 && (this.#text[end] === '\n' || end + 1 < this.#text.length);
    if (!complete && !ended && this.#text.length <= this.limits.characters) return false;
    this.#begun = true;
    if (this.#text.startsWith(BOM)) {
      this.marked = true;
      this.#text = this.#text.slice(1);
    }
    const first = this.#text.split(/[\r\n]/, 1)[0] ?? '';
    const [, stated] = EXCEL_SEPARATOR_LINE.exec(first) ?? [];
    this.separator = detectSeparator(stated ?? first);
    if (stated !== undefined) {
      this.#drop(first.length + lineEnd(this.#text, first.length));
      this.#line += 1;
    }
    return true;
  }

  /** The next record; undefined where none is complete. */
  #next(ended: boolean): CsvRecord | undefined {
    if (this.#skipping && !this.#skip()) return undefined;
    while (this.#at < this.#text.length) {
      const character = this.#text[this.#at] ?? '';
      const breaks = character === '\n' || character === '\r';
      if (breaks && character === '\r' && this.#at + 1 === this.#text.length && !ended) return undefined;
      const length = breaks ? lineEnd(this.#text, this.#at) : 1;
      if (breaks && this.#state !== 'quoted') return this.#complete(this.#at, length);
      if (breaks) {
        this.#breaks += 1;
        this.#spans = true;
        if (this.#secondLine < 0) this.#secondLine = this.#at + length;
      }
      this.#state = stateAfter(this.#state, character, this.separator ?? ',');
      this.#at += length;
      if (this.#state === 'cell-start') this.#spans = false;
      if (this.#state === 'plain' && this.#spans) return this.#refuse('unclosed-quote');
      if (this.#at > this.limits.characters || this.#breaks >= this.limits.lines) return this.#refuse();
    }
    if (!ended || this.#text === '') return undefined;
    return this.#state === 'quoted' ? this.#refuse() : this.#complete(this.#text.length, 0);
  }

  #complete(end: number, lineEnding: number): CsvRecord {
    const line = this.#line;
    const cells = splitCells(this.#text.slice(0, end), this.separator ?? ',');
    this.#drop(end + lineEnding);
    const lastLine = line + this.#breaks;
    this.#line = lastLine + 1;
    this.#breaks = 0;
    return { line, cells, ...(lastLine === line ? {} : { lastLine }) };
  }

  /** Gives up the record's first line and reads on behind it. */
  #refuse(refused: CsvRecord['refused'] = this.#state === 'quoted' ? 'unclosed-quote' : 'too-long'): CsvRecord {
    const line = this.#line;
    const given = this.#text.slice(0, this.#secondLine < 0 ? this.#at : this.#secondLine);
    const cells = begunCells(given.replace(/[\r\n]+$/, ''), this.separator ?? ',');
    if (this.#secondLine < 0) {
      this.#skipping = true;
      this.#drop(this.#at);
    } else {
      this.#drop(this.#secondLine);
      this.#line = line + 1;
    }
    this.#breaks = 0;
    return { line, cells, refused };
  }

  /** Throws away up to the line's end; false where that has not arrived. */
  #skip(): boolean {
    const end = this.#text.search(/[\r\n]/);
    const half = end >= 0 && this.#text[end] === '\r' && end + 1 === this.#text.length;
    if (end < 0 || half) {
      this.#drop(half ? end : this.#text.length);
      return false;
    }
    this.#drop(end + lineEnd(this.#text, end));
    this.#line += 1;
    this.#skipping = false;
    return true;
  }

  #drop(characters: number): void {
    this.#text = this.#text.slice(characters);
    this.#at = 0;
    this.#state = 'cell-start';
    this.#spans = false;
    this.#secondLine = -1;
  }
}

/** 2 for CR LF, 1 for either alone, 0 for none. */
function lineEnd(text: string, at: number): number {
  if (text[at] === '\r') return text[at + 1] === '\n' ? 2 : 1;
  return text[at] === '\n' ? 1 : 0;
}

/** Quotes count only where they open a cell; what follows a closed one is read as it stands. */
function stateAfter(state: State, character: string, separator: Separator): State {
  if (state === 'quoted') return character === '"' ? 'closing' : 'quoted';
  if (character === separator) return 'cell-start';
  if (character === '"' && (state === 'cell-start' || state === 'closing')) return 'quoted';
  if (character !== ' ' || state === 'plain') return 'plain';
  // Spaces before an opening quote and behind a closing one are a habit of some programs.
  return state === 'cell-start' ? 'cell-start' : 'closed';
}
