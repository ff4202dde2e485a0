import type { Facts } from '../facts/facts.js';
import { endlessLoads, notComputable } from '../facts/figures/not-computable.js';
import { lazily } from '../facts/lazily.js';
import { comparePointers } from '../circuit/pointer.js';
import { ANY_PART } from '../limits/judgement.js';
import { fieldNames } from './field-names.js';
import { fillTemplate } from './fill-template.js';
import type { Finding, Verdict } from './finding.js';
import { formatAgainst } from './format-against.js';
import type { Unit } from './format-quantity.js';
import { type OtherSupply, otherSupplies } from './other-supplies.js';
import type { Evidence, JudgeOthers, Outcome, Rule } from './rule.js';
import { rules } from './rules.js';
import type { RuleRow, Ruleset } from './ruleset.js';

/** What any rule says where a figure that it reads cannot be computed or is not bounded well enough, or where an unstated supply decides. */
const COMMON = {
  idealLoop:
    'This cannot be computed as described: without any resistance a loop would need infinite current. It takes {fields} to tell.',
  noStateHolds:
    'This cannot be computed as described: across {loads} the voltage falls to where it stops again as soon as it draws, so that it would start and stop without end. Its input capacitor, where none is described across it, or another startsAbove or stopsBelow decides it.',
  searched:
    'This comes too near to its limit to be told: the worst case over the tolerances is searched for, and a search may miss something{against}. Narrower tolerances decide it.',
  margin: ' The bound keeps a margin for what the search for the worst case may have missed.',
  supply:
    'This is met if the shutdown circuit feeds {contacts}, and not if something else does: it takes {fields} to tell.',
};

const FROM_MEMORY = 'The ruleset has this row from memory only: check the book.';

/**
 * Every rule judged against a circuit, one finding each, in the order of the registry.
 * @param facts computed under the same ruleset's conditions
 * @throws CircuitFault where the circuit cannot be computed for another reason than a loop without resistance or loads that start and stop without end
 */
export function judge(facts: Facts, ruleset: Ruleset): Finding[] {
  const others = judgeOthers(ruleset);
  const supplies = lazily(() => otherSupplies(facts));
  const findings = rules.map((rule) => {
    const row = ruleset.rules.find((candidate) => candidate.rule === rule.meta.id);
    return row === undefined
      ? notInForce(rule, ruleset)
      : finding(rule, row, withEverySupply(rule, checked(rule, facts, ruleset, others), supplies, ruleset), ruleset);
  });
  return withTrueCauses(findings);
}

/** What the rules in force say of some facts, those left out that themselves compare what others say. */
export function judgeOthers(ruleset: Ruleset): JudgeOthers {
  const inForce = rules.filter(
    ({ meta, comparesOthers }) => comparesOthers !== true && ruleset.rules.some(({ rule }) => rule === meta.id),
  );
  const others: JudgeOthers = (facts) => outcomesOf(inForce, facts, ruleset, others);
  return others;
}

/** Judged one by one, as they are asked for. */
function* outcomesOf(
  inForce: readonly Rule[],
  facts: Facts,
  ruleset: Ruleset,
  others: JudgeOthers,
): Generator<Outcome> {
  for (const rule of inForce) yield settled(rule.check(facts, ruleset, others), facts);
}

/** A rule's outcome; undetermined where a figure that it reads cannot be computed. */
function checked(rule: Rule, facts: Facts, ruleset: Ruleset, others: JudgeOthers): Outcome {
  try {
    return settled(rule.check(facts, ruleset, others), facts);
  } catch (error) {
    const { circuit } = facts;
    const refused = notComputable(circuit, error);
    if (refused === undefined) throw error;
    const { missing, elements } = refused;
    const values = { fields: fieldNames(circuit, missing) };
    return settled({ status: 'undetermined', message: 'idealLoop', values, missing, elements }, facts);
  }
}

/** Met only where it is met whatever feeds the contacts of which nothing is stated. */
function withEverySupply(
  rule: Rule,
  outcome: Outcome,
  supplies: () => readonly OtherSupply[],
  ruleset: Ruleset,
): Outcome {
  // A rule that compares others sees the same gap on both sides.
  if (outcome.status !== 'met' || rule.comparesOthers === true) return outcome;
  const decides = supplies().find(({ facts }) => {
    const { status } = checked(rule, facts, ruleset, judgeOthers(ruleset));
    return status === 'violated' || status === 'undetermined';
  });
  if (decides === undefined) return outcome;
  const { facts, contacts, causes } = decides;
  const missing = contacts.map(({ pointer }) => `${pointer}/suppliedBy`);
  const elements = contacts.map(({ id }) => id);
  const values = { contacts: elements.join(', '), fields: fieldNames(facts.circuit, missing) };
  const { evidence = {} } = outcome;
  const causedBy = causes.filter((cause) => cause !== rule.meta.id);
  return { status: 'undetermined', message: 'supply', values, evidence, elements, missing, causedBy };
}

/** An undetermined outcome always says where to look, at worst at the whole description. */
function settled(outcome: Outcome, facts: Facts): Outcome {
  if (outcome.status !== 'undetermined') return outcome;
  const { missing = [], evidence = {} } = outcome;
  const parts = `${facts.circuit.pointer}/elements`;
  const named = missing.map((field) => (field === ANY_PART ? parts : field));
  const complete = { ...outcome, missing: named.length > 0 ? named : [parts] };
  const loads = endlessLoads(facts.circuit, missing);
  if (loads.length > 0) {
    const values = { loads: loads.join(' and ') };
    // What a rule makes of no figure is no number to show.
    const numberless = 'actual' in evidence ? { ...evidence, actual: null, margin: null } : evidence;
    return { ...complete, message: 'noStateHolds', values, elements: loads, evidence: numberless };
  }
  // Where fields are missing besides, the rule's own text names them.
  const searched = missing.length > 0 && missing.every((field) => field === ANY_PART);
  return searched ? { ...complete, message: 'searched', values: { against: againstText(evidence) } } : complete;
}

/** The numbers of the evidence to go into a sentence, where it has some. */
function againstText({ found, judged, limit, unit }: Evidence): string {
  if (typeof found !== 'number' || typeof judged !== 'number') return '';
  if (typeof limit !== 'number' || typeof unit !== 'string') return '';
  // Of several parts the evidence may show one that keeps to its limit by what counts, too: its numbers explain nothing.
  if ((found - limit) * (judged - limit) > 0) return '';
  const against = (value: number) => formatAgainst(value, limit, unit === 'ratio' ? '%' : (unit as Unit));
  const { value, limit: bound } = against(found);
  return `: ${value} was found, with a margin ${against(judged).value} counts, and the limit is ${bound}`;
}

function notInForce({ meta }: Rule, ruleset: Ruleset): Finding {
  return {
    rule: meta.id,
    title: meta.title,
    status: 'not-applicable',
    weight: 'advice',
    clauses: [],
    message: `The ruleset ${ruleset.id} does not ask for this.`,
    evidence: {},
    elements: [],
  };
}

function finding({ meta }: Rule, row: RuleRow, outcome: Outcome, ruleset: Ruleset): Finding {
  const { document, version } = ruleset.source;
  const own = outcome.message in meta.messages;
  const template = templateOf(own ? meta.messages : COMMON, outcome.message, meta.id);
  const message = fillTemplate(template, outcome.values ?? {});
  const { remedy, missing = [], causedBy = [] } = outcome;
  return {
    rule: meta.id,
    title: meta.title,
    status: outcome.status,
    weight: row.weight,
    clauses: row.clauses.map((clause) => ({ document, version, clause, confirmed: row.confirmed })),
    message: row.confirmed === 'memory' ? `${message} ${FROM_MEMORY}` : message,
    evidence: numbered(outcome),
    elements: [...(outcome.elements ?? [])],
    ...(remedy === undefined
      ? {}
      : { remedy: fillTemplate(remedyOf(templateOf(meta.remedies, remedy, meta.id), outcome), outcome.values ?? {}) }),
    ...(outcome.status === 'not-applicable' ? {} : { inspect: meta.inspect }),
    ...(missing.length === 0 ? {} : { missing: [...new Set(missing)].sort(comparePointers) }),
    ...(causedBy.length === 0 ? {} : { causedBy: [...causedBy] }),
  };
}

/** Where the figure was searched for, a bound on a part is narrower than the numbers of the finding let expect. */
function remedyOf(template: string, { evidence = {} }: Outcome): string {
  return evidence['found'] !== evidence['judged'] && template.includes('{bound}') ? template + COMMON.margin : template;
}

/**
 * Every judgement has its numbers. Where a rule measures nothing its faults are counted, of which none is allowed; where no way
 * through the circuit is at issue the path is the elements that were looked at.
 */
function numbered({ status, evidence = {}, elements = [] }: Outcome): Finding['evidence'] {
  if (status !== 'met' && status !== 'violated') return { ...evidence };
  const { problems } = evidence;
  const faults = status === 'met' ? 0 : Array.isArray(problems) ? problems.length : 1;
  const counted = { actual: faults, limit: 0, margin: 0 - faults, unit: 'count' };
  return { ...('actual' in evidence ? {} : counted), path: [...elements], ...evidence };
}

function templateOf(templates: Readonly<Record<string, string>>, key: string, rule: string): string {
  const template = templates[key];
  if (template === undefined) throw new Error(`the rule ${rule} has no text called "${key}"`);
  return template;
}

/** A cause counts only where it is itself a violation or open: a rule not in force causes nothing. */
function withTrueCauses(findings: readonly Finding[]): Finding[] {
  const causes = new Set(
    findings.filter(({ status }) => status === 'violated' || status === 'undetermined').map(({ rule }) => rule),
  );
  return findings.map((each) => {
    if (each.causedBy === undefined) return each;
    const { causedBy, ...rest } = each;
    const kept = causedBy.filter((rule) => causes.has(rule));
    return kept.length === 0 ? rest : { ...rest, causedBy: kept };
  });
}

/** A violated rule decides, then an undetermined one; advice never does. */
export function verdictOf(findings: readonly Finding[]): Verdict {
  const statuses = new Set(findings.filter(({ weight }) => weight === 'rule').map(({ status }) => status));
  if (statuses.has('violated')) return 'violation-found';
  return statuses.has('undetermined') ? 'undetermined' : 'no-violation-found';
}
