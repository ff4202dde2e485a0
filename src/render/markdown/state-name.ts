import type { Report } from '../../verify/report.js';
import { codeSpan } from './code-span.js';

type Discharge = Report['discharge'][number];

const STATES: Readonly<Record<Discharge['scenario'], string>> = {
  shutdown: 'shutdown circuit open',
  'disconnect-open': 'disconnect open',
  'container-removed': 'container removed',
  'all-separated': 'all separated',
};

/** A separation state in words. */
export function stateName({ scenario, container }: Discharge): string {
  return `${STATES[scenario]}${container === undefined ? '' : ` ${codeSpan(container)}`}`;
}
