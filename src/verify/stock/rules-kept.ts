import { createFacts } from '../../facts/create-facts.js';
import type { Facts } from '../../facts/facts.js';
import { lazily } from '../../facts/lazily.js';
import type { RulesKept } from '../../limits/stock/find-stock.js';
import type { Refitted } from '../../limits/stock/with-parts.js';
import type { Outcome } from '../../rules/rule.js';
import { rules } from '../../rules/rules.js';
import type { Ruleset } from '../../rules/ruleset.js';

/**
 * Judges circuits with parts from the stock in them by every rule, good practice too: a choice is still free. A rule counts as
 * broken where it is violated and either was not before, or says so of one of the parts; where a limit on the part keeps what
 * the rule asks of it, a violation that was there before has another cause.
 * @param served by limits: rules that the parts are known to keep as far as it is for them
 */
export function rulesKept(
  facts: Facts,
  ruleset: Ruleset,
  served: ReadonlySet<string>,
): (refitted: Refitted) => RulesKept {
  const before = lazily(() => outcomes(facts, ruleset));
  return ({ circuit, parts }) => {
    const after = [...outcomes(createFacts(circuit, facts.conditions), ruleset)];
    const pointers = circuit.elements.filter(({ id }) => parts.includes(id)).map(({ pointer }) => `${pointer}/`);
    const was = (rule: string) => before().get(rule)?.status;
    const broken = after.filter(([rule, { status, elements = [] }]) => {
      if (status !== 'violated') return false;
      return was(rule) !== 'violated' || (!served.has(rule) && parts.some((part) => elements.includes(part)));
    });
    const open = after.filter(([rule, { status, missing = [] }]) => {
      if (status !== 'undetermined') return false;
      return was(rule) === 'met' || missing.some((field) => pointers.some((pointer) => field.startsWith(pointer)));
    });
    return { broken: broken.map(([rule]) => rule), open: open.map(([rule]) => rule) };
  };
}

/** By rule; without the rules that compare what others say, which ask nothing of a part. */
function outcomes(facts: Facts, ruleset: Ruleset): ReadonlyMap<string, Outcome> {
  const inForce = new Set(ruleset.rules.map(({ rule }) => rule));
  const judged = rules.filter(({ meta, comparesOthers }) => comparesOthers !== true && inForce.has(meta.id));
  return new Map(judged.map(({ meta, check }) => [meta.id, check(facts, ruleset, () => [])]));
}
