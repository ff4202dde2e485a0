import type { Facts } from '../facts/facts.js';
import { missingInLoop } from '../facts/figures/missing-in-loop.js';
import { comparePointers } from '../circuit/pointer.js';
import { fieldNames } from './field-names.js';
import { fillTemplate } from './fill-template.js';
import type { Finding, Verdict } from './finding.js';
import type { JudgeOthers, Outcome, Rule } from './rule.js';
import { rules } from './rules.js';
import type { RuleRow, Ruleset } from './ruleset.js';

/** What any rule says where a figure that it reads would need infinite current. */
const IDEAL_LOOP = {
  idealLoop:
    'This cannot be computed as described: without any resistance a loop would need infinite current. It takes {fields} to tell.',
};

const FROM_MEMORY = 'The ruleset has this row from memory only: check the book.';

/**
 * Every rule judged against a circuit, one finding each, in the order of the registry.
 * @param facts computed under the same ruleset's conditions
 * @throws CircuitFault where the circuit cannot be computed for another reason than a loop without resistance
 */
export function judge(facts: Facts, ruleset: Ruleset): Finding[] {
  const others = judgeOthers(ruleset);
  const findings = rules.map((rule) => {
    const row = ruleset.rules.find((candidate) => candidate.rule === rule.meta.id);
    return row === undefined
      ? notInForce(rule, ruleset)
      : finding(rule, row, checked(rule, facts, ruleset, others), ruleset);
  });
  return withTrueCauses(findings);
}

/** What the rules in force say of some facts, those left out that themselves compare what others say. */
export function judgeOthers(ruleset: Ruleset): JudgeOthers {
  const inForce = rules.filter(
    ({ meta, comparesOthers }) => comparesOthers !== true && ruleset.rules.some(({ rule }) => rule === meta.id),
  );
  const others: JudgeOthers = function* (facts) {
    for (const rule of inForce) yield settled(rule.check(facts, ruleset, others), facts);
  };
  return others;
}

/** A rule's outcome; undetermined where a figure that it reads comes to a loop without resistance. */
function checked(rule: Rule, facts: Facts, ruleset: Ruleset, others: JudgeOthers): Outcome {
  try {
    return settled(rule.check(facts, ruleset, others), facts);
  } catch (error) {
    const { circuit } = facts;
    const missing = missingInLoop(circuit, error);
    if (missing === undefined) throw error;
    const loop = circuit.elements.filter(({ pointer }) => missing.some((field) => field.startsWith(`${pointer}/`)));
    const values = { fields: fieldNames(circuit, missing) };
    return { status: 'undetermined', message: 'idealLoop', values, missing, elements: loop.map(({ id }) => id) };
  }
}

/** An undetermined outcome always says where to look, at worst at the whole description. */
function settled(outcome: Outcome, facts: Facts): Outcome {
  if (outcome.status !== 'undetermined' || (outcome.missing ?? []).length > 0) return outcome;
  return { ...outcome, missing: [`${facts.circuit.pointer}/elements`] };
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
  const message = fillTemplate(
    templateOf({ ...IDEAL_LOOP, ...meta.messages }, outcome.message, meta.id),
    outcome.values ?? {},
  );
  const { remedy, missing = [], causedBy = [] } = outcome;
  return {
    rule: meta.id,
    title: meta.title,
    status: outcome.status,
    weight: row.weight,
    clauses: row.clauses.map((clause) => ({ document, version, clause, confirmed: row.confirmed })),
    message: row.confirmed === 'memory' ? `${message} ${FROM_MEMORY}` : message,
    evidence: { ...outcome.evidence },
    elements: [...(outcome.elements ?? [])],
    ...(remedy === undefined
      ? {}
      : { remedy: fillTemplate(templateOf(meta.remedies, remedy, meta.id), outcome.values ?? {}) }),
    ...(outcome.status === 'not-applicable' ? {} : { inspect: meta.inspect }),
    ...(missing.length === 0 ? {} : { missing: [...new Set(missing)].sort(comparePointers) }),
    ...(causedBy.length === 0 ? {} : { causedBy: [...causedBy] }),
  };
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
  return findings.map(({ causedBy, ...rest }) => {
    const kept = causedBy?.filter((rule) => causes.has(rule)) ?? [];
    return kept.length === 0 ? rest : { ...rest, causedBy: kept };
  });
}

/** A violated rule decides, then an undetermined one; advice never does. */
export function verdictOf(findings: readonly Finding[]): Verdict {
  const statuses = new Set(findings.filter(({ weight }) => weight === 'rule').map(({ status }) => status));
  if (statuses.has('violated')) return 'violation-found';
  return statuses.has('undetermined') ? 'undetermined' : 'no-violation-found';
}
