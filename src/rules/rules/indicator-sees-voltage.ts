import { senseNodes } from '../sense-nodes.js';
import { fieldNames } from '../field-names.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'indicator-sees-voltage',
    title: 'The active light sees the voltage of the link',
    rationale:
      'A light that shows what the relays are told says nothing of a capacitor that is still charged; it must measure.',
    parameters: [],
    messages: {
      met: 'The active light senses the link ({pair}).',
      violated: 'The active light senses {pairs}, but none of these is the link ({link}).',
      undetermined: 'Whether the active light senses the link cannot be told without {fields}.',
    },
    remedies: { sense: 'Sense the voltage at the link’s own nodes ({link}), behind the disconnect and every plug.' },
    inspect: 'Follow the active light’s sense leads to the capacitor.',
  },
  check({ circuit }): Outcome {
    const senses = circuit.indicator?.senses;
    const missing = [
      ...(senses === undefined ? [`${circuit.pointer}/indicator/senses`] : []),
      ...(circuit.link === undefined ? [`${circuit.pointer}/link`] : []),
    ];
    if (senses === undefined || circuit.link === undefined) {
      return {
        status: 'undetermined',
        message: 'undetermined',
        values: { fields: fieldNames(circuit, missing) },
        missing,
      };
    }
    const [positive, negative] = circuit.link.map((node) => senseNodes(circuit, node));
    const found = senses.find(
      ([a, b]) => (positive?.has(a) && negative?.has(b)) || (positive?.has(b) && negative?.has(a)),
    );
    const evidence = { senses, link: circuit.link };
    const link = circuit.link.join(', ');
    if (found !== undefined) return { status: 'met', message: 'met', values: { pair: found.join(', ') }, evidence };
    const pairs = senses.length === 0 ? 'nothing' : senses.map((pair) => pair.join(', ')).join('; ');
    return { status: 'violated', message: 'violated', values: { pairs, link }, evidence, remedy: 'sense' };
  },
};
