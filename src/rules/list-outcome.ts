import type { ResolvedCircuit } from '../circuit/model.js';
import { fieldNames } from './field-names.js';
import type { Evidence, Outcome } from './rule.js';

/** One thing wrong with one or more elements, as part of a sentence: `k1 is closed at rest`. */
export interface Wrong {
  readonly elements: readonly string[];
  readonly text: string;
}

export interface Judged {
  readonly wrong: readonly Wrong[];
  /** Pointers of what is not stated. */
  readonly missing: readonly string[];
  /** Everything that was looked at. */
  readonly elements: readonly string[];
  readonly evidence?: Evidence;
  readonly values?: Readonly<Record<string, string | number>>;
  readonly remedy: string;
}

/**
 * The outcome of a rule that looks at several elements one by one: violated where anything is wrong, else undetermined where
 * anything is not stated. The rule's messages are `met`, `violated` with `{problems}` and `undetermined` with `{fields}`.
 */
export function listOutcome(circuit: ResolvedCircuit, judged: Judged): Outcome {
  const { wrong, missing, elements, evidence = {}, values = {}, remedy } = judged;
  if (wrong.length > 0) {
    return {
      status: 'violated',
      message: 'violated',
      values: { ...values, problems: wrong.map(({ text }) => text).join('; ') },
      evidence: { ...evidence, problems: wrong },
      elements: [...new Set(wrong.flatMap((each) => each.elements))],
      remedy,
      ...(missing.length > 0 ? { missing } : {}),
    };
  }
  if (missing.length > 0) {
    const values_ = { ...values, fields: fieldNames(circuit, missing) };
    return { status: 'undetermined', message: 'undetermined', values: values_, evidence, elements, missing };
  }
  return { status: 'met', message: 'met', values: { ...values, elements: elements.join(', ') }, evidence, elements };
}
