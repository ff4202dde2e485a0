import type { Facts } from '../facts/facts.js';

/** Pointers of what tells how far the link has risen when the last relay closes, as far as the order waits for a measured level. */
export function levelUnstated({ circuit, sequence }: Facts): readonly string[] {
  if (!sequence.steps.some(({ when }) => when !== undefined && !when.falling)) return [];
  const { threshold, comparisonError } = circuit.control.precharge ?? {};
  const base = `${circuit.pointer}/control/precharge`;
  return [
    // A stated order names its levels itself.
    ...(threshold === undefined && sequence.source === 'default' ? [`${base}/threshold`] : []),
    ...(comparisonError === undefined ? [`${base}/comparisonError`] : []),
  ];
}
