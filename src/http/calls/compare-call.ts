import { compareCircuits } from '../../verify/compare/compare-circuits.js';
import { readRevisions } from '../../verify/compare/read-revisions.js';
import { costlyParts } from '../../verify/work/costly-parts.js';
import { expectedWork } from '../../verify/work/expected-work.js';
import { serialise } from '../json/serialise.js';
import { invalidRequest } from '../problems/as-problem.js';
import type { Call } from './call.js';

/** Two revisions of one car. */
export const compareCall: Call = (body) => {
  const reading = readRevisions(body);
  if ('faults' in reading) throw invalidRequest(reading.faults);
  const { before, after } = reading.revisions;
  const [first, second] = [expectedWork(before), expectedWork(after)];
  return {
    pointer: (first > second ? before : after).pointer,
    work: first + second,
    costly: () => [...new Set([before, after].flatMap((circuit) => costlyParts(circuit)))],
    answer: () => serialise(compareCircuits(reading.revisions)),
  };
};
