import type { Accumulator, Fuse } from '../../circuit/model.js';
import type { Facts } from '../../facts/facts.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { listOutcome } from '../list-outcome.js';
import { mainFuses } from '../main-fuses.js';
import { closest, type Measured } from '../measured-against.js';
import { MARGIN } from '../preferred-value.js';
import { roundUp } from '../round-up.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'fuse-breaking-current',
    title: 'The main fuse can break a short circuit of its own accumulator',
    rationale:
      'A fuse that is asked to break more than it is made for bursts and keeps its arc. The most that it can meet is a short right behind it, with only the accumulator’s own resistance to hold the current back.',
    parameters: [],
    messages: {
      met: 'The main fuse ({elements}) breaks what a short circuit of its accumulator drives: {figures}.',
      violated: 'A main fuse cannot break a short circuit of its accumulator: {problems}.',
      undetermined:
        'Whether the main fuse can break a short circuit of its accumulator cannot be told without {fields}.',
      none: 'No container has a fuse in the way of the traction current.',
    },
    remedies: {
      replace: 'Fit a fuse whose breaking current in DC is at least {needed}; {preferred} leaves a margin of 20 %.',
    },
    inspect:
      'Read the breaking capacity of the main fuse in its data sheet, for DC at this voltage, and compare it with the accumulator’s voltage over its internal resistance.',
  },
  check(facts): Outcome {
    const judged = facts.topology.containers.flatMap((container) =>
      mainFuses(facts, container).flatMap((fuse) => judgeFuse(facts, container, fuse)),
    );
    if (judged.length === 0) return { status: 'not-applicable', message: 'none', causedBy: ['main-fuse'] };
    const needed = Math.max(0, ...judged.map(({ current }) => current ?? 0));
    const elements = judged.map(({ fuse }) => fuse.id);
    return listOutcome(facts.circuit, {
      wrong: judged
        .filter(({ short }) => short)
        .map(({ fuse, current }) => ({ elements: [fuse.id], text: textOf(fuse, current ?? 0) })),
      missing: judged.flatMap(({ missing }) => missing),
      elements,
      evidence: {
        ...closest(judged.flatMap(({ measured }) => measured)),
        path: elements,
        fuses: judged.map(({ fuse, current }) => ({
          fuse: fuse.id,
          breakingCurrent: fuse.breakingCurrent ?? null,
          shortCircuitCurrent: current ?? null,
        })),
      },
      values: {
        needed: formatQuantity(needed, 'A'),
        preferred: formatQuantity(roundUp(needed / (1 - MARGIN), 3), 'A'),
        figures: judged.map(({ fuse, current }) => textOf(fuse, current ?? 0)).join('; '),
      },
      remedy: 'replace',
    });
  },
};

interface Judged {
  readonly fuse: Fuse;
  /** A into a short; absent where nothing stated limits it. */
  readonly current?: number;
  /** True where the fuse breaks less. */
  readonly short: boolean;
  readonly missing: readonly string[];
  readonly measured: readonly Measured[];
}

function judgeFuse({ circuit }: Facts, container: string, fuse: Fuse): Judged[] {
  const accumulators = circuit.elements.filter(
    (element): element is Accumulator => element.kind === 'accumulator' && element.container === container,
  );
  if (accumulators.length === 0) return [];
  const { breakingCurrent } = fuse;
  const current = shortCircuitCurrent(accumulators, fuse);
  const missing = [
    // A resistance of 0 tells no more than none.
    ...(current === undefined
      ? accumulators
          .filter(({ resistance }) => !((resistance?.min ?? 0) > 0))
          .map(({ pointer }) => `${pointer}/resistance`)
      : []),
    ...(breakingCurrent === undefined ? [`${fuse.pointer}/breakingCurrent`] : []),
  ];
  if (current === undefined) return [{ fuse, short: false, missing, measured: [] }];
  if (breakingCurrent === undefined) return [{ fuse, current, short: false, missing, measured: [] }];
  const measured: Measured[] = [{ actual: current, limit: breakingCurrent, side: 'below', unit: 'A' }];
  return [{ fuse, current, short: current > breakingCurrent, missing: [], measured }];
}

/**
 * A, by Ohm's law: the highest voltage over the least resistance of the container's accumulators and of the fuse. Accumulators
 * between the same two nodes count side by side, all others in a row; other resistances of the loop are left out, on the
 * careful side. Undefined where an accumulator states no resistance that limits it.
 */
function shortCircuitCurrent(accumulators: readonly Accumulator[], fuse: Fuse): number | undefined {
  if (accumulators.some(({ resistance }) => !((resistance?.min ?? 0) > 0))) return undefined;
  const groups = new Map<string, { volts: number; siemens: number }>();
  for (const { nodes, voltage, resistance } of accumulators) {
    const key = [...nodes].sort().join(' ');
    const { volts, siemens } = groups.get(key) ?? { volts: 0, siemens: 0 };
    groups.set(key, { volts: Math.max(volts, voltage.max), siemens: siemens + 1 / (resistance?.min ?? 0) });
  }
  const all = [...groups.values()];
  const volts = all.reduce((sum, group) => sum + group.volts, 0);
  const ohms = all.reduce((sum, group) => sum + 1 / group.siemens, fuse.resistance?.min ?? 0);
  return volts / ohms;
}

function textOf({ id, breakingCurrent = 0 }: Fuse, current: number): string {
  const texts = formatAgainst(current, breakingCurrent, 'A');
  return `${id} meets up to ${texts.value} and breaks ${texts.limit}`;
}
