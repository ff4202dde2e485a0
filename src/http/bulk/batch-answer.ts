import { csvLine, type CsvForm } from '../../render/csv/csv-cell.js';
import { resultHeadings } from '../../render/csv/result-cells.js';
import type { BatchCounts } from '../../verify/batch/batch-schemas.js';
import { counted, noCounts } from '../../verify/batch/batch-counts.js';
import type { BatchSettings, ItemResult } from '../pool/chunk.js';
import { ownHeadings } from '../pool/own-cells.js';
import { serialise } from '../json/serialise.js';

/** How a batch's results are put together into one body. */
interface Frame {
  readonly open: string;
  readonly item: (text: string, isFirst: boolean) => string;
  readonly close: (summary: BatchCounts) => string;
}

const lines: Frame = {
  open: '',
  item: (text) => `${text}\n`,
  close: (summary) => `${serialise({ summary })}\n`,
};

const list: Frame = {
  open: '{"results":[',
  item: (text, isFirst) => `${isFirst ? '' : ','}\n${text}`,
  close: (summary) => `\n],"summary":${serialise(summary)}}\n`,
};

/** Without a last line: a row of another kind would spoil the table. */
const table = (settings: BatchSettings, marked: boolean): Frame => ({
  open: `${marked ? BOM : ''}${headingLine(settings, settings.csv)}`,
  item: (text) => text,
  close: () => '',
});

const BOM = '\uFEFF';

/** The body of a batch's answer, piece by piece as the results come. */
export async function* batchAnswer(
  results: AsyncIterable<readonly ItemResult[]>,
  settings: BatchSettings,
  { type, marked }: { readonly type: string; readonly marked: boolean },
): AsyncGenerator<string> {
  let counts = noCounts();
  const frame = settings.output === 'csv' ? table(settings, marked) : type === 'application/json' ? list : lines;
  if (frame.open !== '') yield frame.open;
  for await (const some of results) {
    let text = '';
    for (const result of some) {
      text += frame.item(result.text, counts.count === 0);
      counts = counted(counts, result.outcome);
    }
    yield text;
  }
  const close = frame.close(counts);
  if (close !== '') yield close;
}

function headingLine(settings: BatchSettings, form: CsvForm): string {
  const detail = settings.detail === 'full' ? 'full' : 'verdict';
  return csvLine([...ownHeadings(settings), ...resultHeadings(detail)], form);
}
