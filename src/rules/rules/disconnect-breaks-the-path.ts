import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'disconnect-breaks-the-path',
    title: 'The high-voltage disconnect breaks the path to the link',
    rationale:
      'The disconnect is what a marshal pulls when the relays cannot be trusted. It must part the accumulator from the car even with every relay welded, so no way may lead round it.',
    parameters: [],
    messages: {
      met: 'With {disconnects} open no circuit remains between accumulator and link, every relay closed.',
      violated:
        'With {disconnects} open and every relay closed a circuit remains between accumulator and link: {paths}.',
      undetermined: 'No high-voltage disconnect is described, so what remains when it opens cannot be told.',
    },
    remedies: {
      move: 'Lead everything between container and link, the pre-charge branch included, through the disconnect.',
    },
    inspect:
      'Pull the disconnect: everything of the tractive system must leave one pole through it, the pre-charge branch too.',
  },
  check({ circuit, topology, pathsPastDisconnect }): Outcome {
    const { disconnects } = topology;
    if (disconnects.length === 0) {
      return { status: 'undetermined', message: 'undetermined', missing: [`${circuit.pointer}/elements`] };
    }
    const evidence = {
      path: pathsPastDisconnect[0]?.elements ?? [],
      disconnects,
      paths: pathsPastDisconnect.map(({ elements }) => elements),
    };
    const values = {
      disconnects: disconnects.join(', '),
      paths: pathsPastDisconnect
        .map(({ elements, nodes }) => (elements.length > 0 ? elements : nodes).join(' – '))
        .join('; '),
    };
    if (pathsPastDisconnect.length === 0)
      return { status: 'met', message: 'met', values, evidence, elements: disconnects };
    const elements = [...new Set(pathsPastDisconnect.flatMap((path) => path.elements))];
    return { status: 'violated', message: 'violated', values, evidence, elements, remedy: 'move' };
  },
};
