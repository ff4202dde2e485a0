import type { ItemOutcome } from '../../verify/batch/batch-counts.js';
import type { Detail } from '../../verify/batch/judge-item.js';
import type { ElementIds } from '../../verify/batch/element-ids.js';
import type { ItemDefaults, ItemId } from '../../verify/batch/read-item.js';
import type { RawItem } from '../../verify/batch/raw-item.js';
import type { CarRecord } from '../../verify/summary/car-record.js';
import type { CsvForm } from '../../render/csv/csv-cell.js';

/** What holds for all items of one batch. Plain data, so that it can be sent to another thread. */
export interface BatchSettings {
  readonly detail: Detail;
  readonly defaults: ItemDefaults;
  /** The form of each result's text; a summary needs none. */
  readonly output: 'json' | 'csv';
  readonly csv: CsvForm;
  /** Of the table that came in; absent where none did. */
  readonly headings?: readonly string[];
  readonly requestId: string;
}

/** Work for one thread: a few items, judged one after the other. */
export interface Chunk {
  readonly settings: BatchSettings;
  readonly items: readonly RawItem[];
  /** Shared memory of one Int32: how many items have been begun. Absent where nobody watches. */
  readonly progress?: SharedArrayBuffer;
}

export interface ItemResult {
  readonly index: number;
  readonly id: ItemId;
  readonly outcome: ItemOutcome;
  /** The answer as it is sent: JSON, or a line of CSV. Empty for a summary. */
  readonly text: string;
  /** For a summary: what was found, or what is wrong. */
  readonly record?: CarRecord;
  readonly problem?: { readonly code: string; readonly places: readonly string[] };
  /** For a summary: of the parts that what is missing or wrong belongs to. */
  readonly elements?: ElementIds;
  /** A mistake of our own, for the log. */
  readonly failure?: string;
}
