import type { Load, ResolvedCircuit } from '../../circuit/model.js';
import { compileCircuit } from '../../transient/compiled-circuit.js';
import { capacitorPairs } from './capacitor-pairs.js';

/** Loads named one by one, at most. */
const NAMED = 5;
/** Counts above which ordinary cars are left behind. */
const MANY = { elements: 40, ranges: 40, steps: 20 } as const;

/** What is done with a circuit, where it is less than a verification. */
export interface Use {
  /** True for one run at nominal values, in which tolerances cost nothing. */
  readonly nominal?: boolean;
  /** Steps of the order of closing, where it is not the circuit's own. */
  readonly steps?: number;
}

/** What of a circuit makes it costly to compute and what would make it cheaper: whole sentences, the costliest first. */
export function costlyParts(circuit: ResolvedCircuit, use: Use = {}): string[] {
  const { nominal = false, steps = circuit.control.sequence?.length ?? 0 } = use;
  const loads = circuit.elements.filter((element) => element.kind === 'load');
  const powers = loads.filter(({ power }) => power !== undefined);
  const switching = loads.filter(({ power, startsAbove }) => power === undefined && startsAbove > 0);
  const pairs = capacitorPairs(circuit);
  const ranges = nominal ? 0 : compileCircuit(circuit).parameters.filter(({ range }) => range.min < range.max).length;
  const elements = circuit.elements.length;
  return [
    ...(powers.length === 0
      ? []
      : [
          `Loads of constant power are followed step by step in every run: if it is so, state a resistance or a current for ${named(powers)}, or in \`activeIn\` only the phases in which they are on.`,
        ]),
    ...(switching.length === 0
      ? []
      : [
          `Loads that start and stop may do so many times in every run: if ${named(switching)} in truth always ${switching.length === 1 ? 'draws' : 'draw'}, state \`startsAbove\` 0.`,
        ]),
    ...(pairs < 2
      ? []
      : [`There are capacitors between ${pairs} pairs of nodes: put those that stand close together on one pair.`]),
    ...(ranges <= MANY.ranges
      ? []
      : [`There are ${ranges} values with a range: state those of small influence with the tolerance 0.`]),
    ...(elements <= MANY.elements
      ? []
      : [`There are ${elements} elements: put those in series or side by side together into one.`]),
    ...(steps <= MANY.steps ? [] : [`The sequence has ${steps} steps: state fewer.`]),
  ];
}

function named(loads: readonly Load[]): string {
  const names = loads.slice(0, NAMED).map(({ id }) => `\`${id}\``);
  const more = loads.length - names.length;
  return `${names.join(', ')}${more > 0 ? ` and ${more} more` : ''}`;
}
