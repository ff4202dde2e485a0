/** One item of a batch as it arrived, not yet read. */
export interface RawItem {
  /** Its position among the items, from 0; blank lines do not count. */
  readonly index: number;
  /** The line of the file on which it begins, from 1; absent in a JSON list. */
  readonly line?: number;
  /** Of a record of a table: the line on which it ends, where that is a later one. */
  readonly lastLine?: number;
  readonly content: RawContent;
}

export type RawContent =
  /** JSON text in UTF-8. */
  | { readonly form: 'json'; readonly bytes: Uint8Array }
  /** One record of a table. */
  | { readonly form: 'cells'; readonly cells: readonly string[] }
  /** Not even taken apart; of a record of a table as many cells as could be read. */
  | {
      readonly form: 'refused';
      readonly why: 'too-long' | 'unclosed-quote' | 'unclosed-list';
      readonly cells?: readonly string[];
    };
