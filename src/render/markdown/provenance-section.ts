import type { Report } from '../../verify/report.js';
import { showQuantity } from '../show-quantity.js';
import { codeSpan } from './code-span.js';
import { escapeMarkdown } from './escape-markdown.js';

/** What the result was made from, and everything that was assumed because the description is silent. */
export function provenanceSection(provenance: Report['provenance']): string[] {
  const { ruleset, event, overrides, assumptions } = provenance;
  const lines = [
    `- Contract ${codeSpan(provenance.contract)}, engine ${codeSpan(provenance.engine)}`,
    ruleset === undefined
      ? undefined
      : `- Ruleset ${codeSpan(ruleset.id)}, revision ${codeSpan(ruleset.revision)}: ${escapeMarkdown(`${ruleset.document}, ${ruleset.version}`)}`,
    event?.meterResistance === undefined
      ? undefined
      : `- The event’s own energy meter: ${showQuantity(event.meterResistance, 'Ω')}`,
    ...overrides.map(
      ({ parameter, from, to }) =>
        `- The event sets ${codeSpan(parameter)} to ${inCode(to)}; the book has ${inCode(from)}`,
    ),
    `- Digest of the input ${codeSpan(provenance.inputDigest)}`,
  ].filter((line) => line !== undefined);
  const assumed = assumptions.map(({ pointer, assumed: what }) => `- ${codeSpan(pointer)}: ${escapeMarkdown(what)}`);
  return [
    ...(assumed.length > 0 ? ['## Assumed, because not stated', assumed.join('\n')] : []),
    '## Made from',
    lines.join('\n'),
  ];
}

const inCode = (value: unknown): string => codeSpan(JSON.stringify(value));
