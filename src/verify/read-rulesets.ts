import { capacities } from '../circuit/capacities.js';
import { suggestionEnd } from '../circuit/closest.js';
import type { Fault } from '../circuit/fault.js';
import { childPointer } from '../circuit/pointer.js';
import type { Ruleset } from '../rules/ruleset.js';
import { rulesetById } from '../rules/ruleset-by-id.js';
import { rulesets as all } from '../rules/rulesets.js';

const ids = all.map(({ id }) => id);
const ACCEPTED = `one of ${ids.join(', ')}`;

/** Reads which rulesets a request is to be judged under: `ruleset`, or `rulesets` for several. None is ever defaulted. */
export function readRulesets(
  given: { readonly ruleset?: unknown; readonly rulesets?: unknown },
  pointer: string,
): { readonly rulesets: readonly Ruleset[] } | { readonly faults: readonly Fault[] } {
  const { ruleset, rulesets } = given;
  const single = childPointer(pointer, 'ruleset');
  const several = childPointer(pointer, 'rulesets');
  if (ruleset !== undefined && rulesets !== undefined) {
    const detail = 'A request names `ruleset`, or `rulesets` for several, not both.';
    return { faults: [{ pointer: several, code: 'ruleset-or-rulesets', detail }] };
  }
  if (rulesets !== undefined) return readList(rulesets, several);
  if (ruleset === undefined) {
    const detail = '`ruleset` is missing: none is taken by default, since rulebooks differ.';
    return { faults: [{ pointer: single, code: 'missing-field', detail, accepted: ACCEPTED }] };
  }
  const fault = idFault(ruleset, single);
  return fault === undefined ? { rulesets: found([ruleset]) } : { faults: [fault] };
}

function readList(list: unknown, pointer: string): { rulesets: readonly Ruleset[] } | { faults: readonly Fault[] } {
  const accepted = `a list of 1 to ${capacities.rulesets} of ${ids.join(', ')}`;
  if (!Array.isArray(list)) {
    return { faults: [{ pointer, code: 'wrong-type', detail: '`rulesets` must be a list of ids.', accepted }] };
  }
  if (list.length === 0 || list.length > capacities.rulesets) {
    const detail = `\`rulesets\` must hold from 1 to ${capacities.rulesets} ids, not ${list.length}.`;
    return { faults: [{ pointer, code: 'wrong-length', detail, accepted }] };
  }
  const faults = list.flatMap((id: unknown, index): Fault[] => {
    const place = childPointer(pointer, index);
    const fault = idFault(id, place);
    if (fault !== undefined) return [fault];
    if (list.indexOf(id) === index) return [];
    return [
      { pointer: place, code: 'repeated-item', detail: `The ruleset \`${String(id)}\` stands in the list twice.` },
    ];
  });
  return faults.length > 0 ? { faults } : { rulesets: found(list) };
}

/** Of the rulesets that differ from an id in the year alone, as that of next season does. */
function latestOfFamily(id: string): string | undefined {
  const family = (each: string): string => each.replace(/\d{4}$/, '');
  return ids
    .filter((each) => family(each) === family(id))
    .sort()
    .at(-1);
}

function idFault(id: unknown, pointer: string): Fault | undefined {
  if (typeof id !== 'string')
    return { pointer, code: 'wrong-type', detail: 'A ruleset’s id must be text.', accepted: ACCEPTED };
  if (rulesetById(id) !== undefined) return undefined;
  const latest = latestOfFamily(id);
  const end = latest === undefined ? suggestionEnd(id, ids) : `; the latest of its kind is \`${latest}\`.`;
  const detail = `There is no ruleset \`${id.slice(0, 64)}\`${end}`;
  return { pointer, code: 'unknown-ruleset', detail, accepted: ACCEPTED };
}

function found(wanted: readonly unknown[]): Ruleset[] {
  return wanted.flatMap((id) => rulesetById(String(id)) ?? []);
}
