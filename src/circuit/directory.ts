import { limitedSuggestions } from './closest.js';
import { type LooseCircuit, looseCircuit } from './loose-circuit.js';
import type { ElementKind, ResolvedCircuit } from './model.js';

/** What a reference needs to know of an element. */
export interface DirectoryEntry {
  readonly id: string;
  readonly kind?: ElementKind;
  readonly relay?: string;
  readonly rest?: 'open' | 'closed';
}

/** The names that references may point to. */
export interface Directory {
  readonly elements: ReadonlyMap<string, DirectoryEntry>;
  readonly nodes: ReadonlySet<string>;
  /** False where some element's id (nodes) could not be read: a name not in the list may be that one. */
  readonly idsKnown: boolean;
  readonly nodesKnown: boolean;
  /** The end of a sentence about a name that is not in the list. */
  readonly suggestionEnd: (word: string, candidates: Iterable<string>) => string;
}

/** The directory of a circuit that has been read. */
export function directoryOf(circuit: ResolvedCircuit): Directory {
  return {
    elements: new Map(circuit.elements.map((element) => [element.id, element])),
    nodes: new Set(circuit.nodes),
    idsKnown: true,
    nodesKnown: true,
    suggestionEnd: limitedSuggestions(),
  };
}

/** The directory of a circuit that has faults of its own, as far as it can be read; never fails. */
export function directoryOfInput(input: unknown, pointer: string): Directory {
  return looseDirectory(looseCircuit(input, pointer));
}

/** The directory of a circuit as far as it can be read. */
export function looseDirectory(circuit: LooseCircuit): Directory {
  const elements = new Map<string, DirectoryEntry>();
  for (const [id, { kind, raw }] of circuit.byId) {
    const { relay, rest } = raw;
    elements.set(id, {
      id,
      ...(kind === undefined ? {} : { kind }),
      ...(kind === 'contact' && typeof relay === 'string' ? { relay } : {}),
      ...(rest === 'open' || rest === 'closed' ? { rest } : {}),
    });
  }
  const { nodes, idsKnown, nodesKnown } = circuit;
  return { elements, nodes, idsKnown, nodesKnown, suggestionEnd: limitedSuggestions() };
}
