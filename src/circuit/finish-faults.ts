import { capacities } from './capacities.js';
import type { Fault } from './fault.js';
import { makeFault } from './make-fault.js';
import { comparePointers } from './pointer.js';

/**
 * The faults in the order they are answered: by place, then code and sentence; none twice. Beyond the published number
 * one more fault at `pointer` says that there are more.
 */
export function finishFaults(faults: readonly Fault[], pointer: string): Fault[] {
  const sorted = [...faults].sort(compareFaults);
  const once = sorted.filter((fault, index) => {
    const before = sorted[index - 1];
    return before === undefined || compareFaults(before, fault) !== 0;
  });
  if (once.length <= capacities.faults) return once;
  const detail = `Only ${capacities.faults} faults are listed; there are more.`;
  return [...once.slice(0, capacities.faults), makeFault(pointer, 'more-faults', detail)].sort(compareFaults);
}

function compareFaults(a: Fault, b: Fault): number {
  return comparePointers(a.pointer, b.pointer) || compareText(a.code, b.code) || compareText(a.detail, b.detail);
}

function compareText(a: string, b: string): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}
