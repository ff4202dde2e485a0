import { missingLabel } from '../missing-label.js';
import type { Finding } from '../../rules/finding.js';
import { codeSpan } from './code-span.js';
import { escapeMarkdown } from './escape-markdown.js';
import { markdownTable } from './markdown-table.js';

const GROUPS: ReadonlyArray<{ readonly heading: string; readonly holds: (finding: Finding) => boolean }> = [
  { heading: 'Violated', holds: ({ status, weight }) => status === 'violated' && weight === 'rule' },
  { heading: 'Undetermined', holds: ({ status, weight }) => status === 'undetermined' && weight === 'rule' },
  {
    heading: 'Advice',
    holds: ({ status, weight }) => (status === 'violated' || status === 'undetermined') && weight === 'advice',
  },
];

/** The findings by urgency: what is violated and what is open in full, what is met as a table, the rest as a list. */
export function findingsSection(findings: readonly Finding[]): string[] {
  const blocks: string[] = [];
  for (const { heading, holds } of GROUPS) {
    const group = findings.filter(holds);
    if (group.length > 0) blocks.push(`## ${heading}`, ...group.flatMap(inFull));
  }
  const met = findings.filter(({ status }) => status === 'met');
  if (met.length > 0) {
    const rows = met.map((finding) => [codeSpan(finding.rule), escapeMarkdown(finding.message)]);
    blocks.push('## Met', markdownTable([{ title: 'Rule' }, { title: 'How it stands' }], rows));
  }
  const rest = findings.filter(({ status }) => status === 'not-applicable');
  if (rest.length > 0) {
    blocks.push(
      '## Not applicable',
      rest.map((finding) => `- ${codeSpan(finding.rule)}: ${escapeMarkdown(finding.message)}`).join('\n'),
    );
  }
  return blocks;
}

function inFull(finding: Finding): string[] {
  const open = finding.status === 'undetermined' ? ' (undetermined)' : '';
  const facts: Array<readonly [string, string | undefined]> = [
    ['What to do', finding.remedy === undefined ? undefined : escapeMarkdown(finding.remedy)],
    ['Look at', finding.inspect === undefined ? undefined : escapeMarkdown(finding.inspect)],
    [missingLabel(finding.missing ?? []), spans(finding.missing)],
    ['Parts', spans(finding.elements)],
    ['Follows from', spans(finding.causedBy)],
    ['Source', sourcesOf(finding)],
    ['Rule', codeSpan(finding.rule)],
  ];
  const lines = facts.flatMap(([name, text]) => (text === undefined ? [] : [`- ${name}: ${text}`]));
  const title = `### ${escapeMarkdown(finding.title)}${finding.weight === 'advice' ? open : ''}`;
  return [title, escapeMarkdown(finding.message), lines.join('\n')];
}

function spans(ids: readonly string[] | undefined): string | undefined {
  return ids === undefined || ids.length === 0 ? undefined : ids.map(codeSpan).join(', ');
}

/** Clauses by document and by how sure we are of them, so that a document is named once. */
function sourcesOf({ clauses }: Finding): string | undefined {
  const groups = new Map<string, string[]>();
  for (const { document, version, clause, confirmed } of clauses) {
    const doubt = confirmed === 'read' ? '' : confirmed === 'ours' ? ' (our own)' : ` (${confirmed}: check the book)`;
    const key = `${document}, ${version}${doubt}`;
    groups.set(key, [...(groups.get(key) ?? []), clause]);
  }
  const texts = Array.from(groups, ([key, list]) => escapeMarkdown(`${key}: ${list.join(', ')}`));
  return texts.length > 0 ? texts.join('; ') : undefined;
}
