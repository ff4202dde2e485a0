import { markdownReport } from '../../render/index.js';
import { forEachRuleset, VerifyRequestSchema, verifyCircuit } from '../../verify/index.js';
import { serialise } from '../json/serialise.js';
import { readBody } from '../read-body.js';
import type { Call } from './call.js';
import { costOf } from './cost-of.js';

/** Everything about one circuit, as JSON or as a report to read. */
export const verifyCall: Call = (body) => {
  const wanted = readBody(VerifyRequestSchema, body);
  return {
    ...costOf(wanted),
    answer: (type) => {
      const answer = forEachRuleset(wanted, (subject) => verifyCircuit(subject, wanted.sensitivities));
      if (type !== 'text/markdown') return serialise(answer);
      const reports = 'reports' in answer ? answer.reports : [answer];
      const title = wanted.circuit.title ?? 'Circuit';
      return reports.map((report) => markdownReport(report, { title })).join('\n');
    },
  };
};
