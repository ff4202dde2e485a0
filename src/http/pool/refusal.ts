import type { RawContent } from '../../verify/batch/raw-item.js';
import { httpCapacities } from '../http-capacities.js';
import { HttpProblem } from '../problems/http-problem.js';

const { batchLineBytes: bytes, batchRecordCharacters: characters, batchRecordLines: lines } = httpCapacities;

type Why = Extract<RawContent, { readonly form: 'refused' }>['why'];

/** What is wrong with an item that could not even be taken apart. */
export function refusal(why: Why, isTable: boolean): HttpProblem {
  switch (why) {
    case 'too-long': {
      const detail = isTable
        ? `The row has more than ${characters} characters or runs over more than ${lines} lines; it was skipped.`
        : `The item has more than ${bytes} bytes; it was skipped.`;
      return new HttpProblem('line-too-long', detail);
    }
    case 'unclosed-quote':
      return new HttpProblem('malformed-csv', 'A quote is opened on this line and not closed; the line was skipped.');
    case 'unclosed-list':
      return new HttpProblem('malformed-json', 'The list breaks off or goes on behind its end; the rest was not read.');
  }
}
