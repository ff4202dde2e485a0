import type { Report } from '../verify/report.js';
import { carTestsSection } from './markdown/car-tests-section.js';
import { codeSpan } from './markdown/code-span.js';
import { dischargeSection } from './markdown/discharge-section.js';
import { escapeMarkdown } from './markdown/escape-markdown.js';
import { findingsSection } from './markdown/findings-section.js';
import { limitsSection } from './markdown/limits-section.js';
import { prechargeSection } from './markdown/precharge-section.js';
import { provenanceSection } from './markdown/provenance-section.js';
import { sensitivitiesSection } from './markdown/sensitivities-section.js';
import { verdictWords } from './verdict-words.js';

export interface ReportSubject {
  /** The car's name, as its team writes it. */
  readonly title: string;
  /** A sentence or two about it. */
  readonly summary?: string;
}

/**
 * A report for people, as GitHub Flavored Markdown: verdict, findings by urgency, figures, limits, cautions, provenance.
 * Pure: the same report gives the same bytes. Texts that a caller can set are escaped.
 */
export function markdownReport(report: Report, { title, summary }: ReportSubject): string {
  const { short, sentence } = verdictWords[report.verdict];
  const { ruleset } = report.provenance;
  const blocks = [
    `# ${escapeMarkdown(title)}: ${short}`,
    ...(summary === undefined ? [] : [escapeMarkdown(summary)]),
    `**${sentence}** ${escapeMarkdown(
      report.cautions
        .slice(0, 2)
        .map(({ text }) => text)
        .join(' '),
    )}`,
    ...(ruleset === undefined
      ? []
      : [`Judged by ${codeSpan(ruleset.id)} (${escapeMarkdown(`${ruleset.document}, ${ruleset.version}`)}).`]),
    ...findingsSection(report.findings),
    ...prechargeSection(report),
    ...dischargeSection(report.discharge),
    ...sensitivitiesSection(report),
    ...limitsSection(report),
    ...carTestsSection(report.carTests),
    '## Cautions',
    report.cautions.map(({ text }) => `- ${escapeMarkdown(text)}`).join('\n'),
    ...provenanceSection(report.provenance),
  ];
  return `${blocks.join('\n\n')}\n`;
}
