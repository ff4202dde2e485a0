import { elementById } from '../../circuit/model.js';
import type { ConductingPath, Facts } from '../../facts/facts.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'precharge-through-relay',
    title: 'All pre-charge current passes the pre-charge relay',
    rationale:
      'Whatever leads round the pre-charge relay charges the link as soon as the other isolation relay closes, or keeps it live when the relay has opened.',
    parameters: ['isolationPerVolt'],
    messages: {
      met: 'With the pre-charge relay open nothing charges the link during the rise.',
      violated: 'With every pre-charge relay open current still reaches the link by way of {path}.',
      noPath: 'No path charges the link.',
    },
    remedies: {
      move: 'Put the pre-charge relay in series with the whole branch, so that nothing leads round it.',
    },
    inspect:
      'Trace every conductor between the two sides of the last isolation relay: each must pass the pre-charge relay.',
  },
  check(facts): Outcome {
    const { prechargeBypass: bypass, prechargePath, prechargeRelays } = facts.topology;
    if (bypass !== undefined) {
      const evidence = { path: bypass.elements, resistance: bypass.resistance };
      const values = { path: (bypass.elements.length > 0 ? bypass.elements : bypass.nodes).join(' – ') };
      return {
        status: 'violated',
        message: 'violated',
        values,
        evidence,
        elements: bypass.elements,
        remedy: 'move',
        causedBy: causesOf(facts, bypass),
      };
    }
    if (prechargePath.length === 0) {
      return { status: 'not-applicable', message: 'noPath', causedBy: ['precharge-reaches-threshold'] };
    }
    return { status: 'met', message: 'met', evidence: { path: prechargePath }, elements: prechargeRelays };
  },
};

/** A way out of a container that nothing cuts, or a contact that leaks, leads round the pre-charge relay too. */
function causesOf({ circuit, exits, exposures }: Facts, bypass: ConductingPath): readonly string[] {
  const leadsRound = ({ path }: { readonly path: ConductingPath }): boolean =>
    path.elements.every((id) => bypass.elements.includes(id)) &&
    // A fuse alone is where every way out begins, the sound ones too.
    path.elements.some((id) => elementById(circuit, id)?.kind !== 'fuse');
  if (exits.some((exit) => exit.faults.length > 0 && leadsRound(exit))) return ['isolation-both-poles'];
  return exposures.some((exposure) => exposure.dangerous && leadsRound(exposure))
    ? ['no-unswitched-voltage-outside']
    : [];
}
