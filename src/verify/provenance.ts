import type { ResolvedCircuit } from '../circuit/model.js';
import { plainCircuit } from '../circuit/plain-circuit.js';
import type { Ruleset } from '../rules/ruleset.js';
import type { Override } from '../rules/with-overrides.js';
import { ACCURACY } from '../transient/accuracy.js';
import { digest } from './digest.js';
import { CONTRACT_VERSION, ENGINE_VERSION } from './engine-version.js';
import type { Event } from './event.js';
import type { Provenance } from './report.js';

interface Made {
  readonly circuit: ResolvedCircuit;
  readonly ruleset?: Ruleset;
  readonly event?: Event;
  readonly overrides?: readonly Override[];
  readonly assumptions?: ReadonlyArray<{ readonly pointer: string; readonly assumed: string }>;
  /** Relative error that a signal may have; stated only where it is more than usual. */
  readonly accuracy?: number;
  /** What else of the request shapes the answer, in plain SI. */
  readonly further?: object;
}

/** What an answer was made from. The digest is of the request in plain SI, so it does not depend on how it was written. */
export function provenance({
  circuit,
  ruleset,
  event,
  overrides = [],
  assumptions = [],
  accuracy = 0,
  further,
}: Made): Provenance {
  return {
    contract: CONTRACT_VERSION,
    engine: ENGINE_VERSION,
    ...(ruleset === undefined ? {} : { ruleset: rulesetFacts(ruleset) }),
    inputDigest: digest({
      circuit: plainCircuit(circuit),
      ruleset: ruleset === undefined ? undefined : { id: ruleset.id, revision: ruleset.revision },
      event,
      ...further,
    }),
    assumptions: assumptions.map(({ pointer, assumed }) => ({ pointer, assumed })),
    ...(event === undefined ? {} : { event: { ...event } }),
    ...(accuracy > ACCURACY ? { accuracy } : {}),
    overrides: overrides.map(({ parameter, from, to }) => ({ parameter, from, to })),
  };
}

function rulesetFacts({ id, revision, source }: Ruleset) {
  return { id, revision, document: source.document, version: source.version, defaulted: false };
}
