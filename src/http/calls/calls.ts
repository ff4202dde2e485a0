import type { Call } from './call.js';
import { compareCall } from './compare-call.js';
import { findingsCall } from './findings-call.js';
import { limitsCall } from './limits-call.js';
import { transientsCall } from './transients-call.js';
import { verifyCall } from './verify-call.js';

/** Calls whose work may be large, by the name by which a thread is asked for one. */
export const calls = {
  verify: verifyCall,
  findings: findingsCall,
  limits: limitsCall,
  compare: compareCall,
  transients: transientsCall,
} as const satisfies Record<string, Call>;

export type CallName = keyof typeof calls;
