import type { Step } from '../circuit/model.js';
import type { Report } from './report.js';

/** An order of closing as it was run, and whose it is. */
export function sequenceAnswer(steps: readonly Step[], source: 'stated' | 'default'): Report['sequence'] {
  return { source, steps: steps.map((step) => ({ ...step, close: [...step.close], open: [...step.open] })) };
}
