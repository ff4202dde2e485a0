import { faultCodes } from '../../circuit/fault-codes.js';
import { requestFaultCodes } from '../../verify/fault-codes.js';
import { type ProblemRow, problemTable } from './problem-table.js';
import { queryCodes } from './query-codes.js';

/** What the page of one code says. */
export interface CodePage {
  readonly code: string;
  /** `problem`: the last part of a `type`. `fault`: an `errors[].code`, and sometimes a problem of its own too. */
  readonly kind: 'problem' | 'fault';
  readonly status?: number;
  readonly title: string;
  readonly explanation: string;
}

const problems: readonly CodePage[] = Object.entries<ProblemRow>(problemTable).map(([code, row]) => ({
  code,
  kind: 'problem',
  status: row.status,
  title: row.title,
  explanation: row.explanation,
}));

const faults: readonly CodePage[] = Object.entries({ ...queryCodes, ...requestFaultCodes, ...faultCodes })
  // A few say the same as a problem and have their page there.
  .filter(([code]) => !Object.hasOwn(problemTable, code))
  .map(([code, row]) => ({ code, kind: 'fault', ...row }));

/** Every code that an answer can carry: problems first, in the order of their status, then faults. */
export const allCodes: readonly CodePage[] = [...problems, ...faults];
