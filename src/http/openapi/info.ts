import { cautions } from '../../verify/cautions.js';
import { ENGINE_VERSION } from '../../verify/engine-version.js';
import type { Tag } from './describe.js';

const DESCRIPTION = `Verifies the pre-charge and discharge circuits of student-built electric race cars against the rulebook in force. Post a description of the circuit as built; the answer has computed transients, limits for every part and a finding for every rule, in the worst case over all tolerances.

Quantities in answers are SI: V, A, Ω, F, s, J, W, °C. In requests a quantity is a number in SI, a text with a unit (\`"47 kΩ"\`, \`"680 uF"\`), or for resistances and capacitances an IEC 60062 letter code (\`"4k7"\`). Requests are strict: an unknown field is a fault, and every fault of a request is named at once. Answers may gain fields. The same request gives the same bytes. Errors are problem documents (RFC 9457); GET /problems lists them.

**Read this first**

${cautions.map(({ text }) => `- ${text}`).join('\n')}
`;

const tags: readonly { name: Tag; description: string }[] = [
  { name: 'Verification', description: 'A circuit judged: transients, limits, findings, or all of it.' },
  { name: 'Circuits', description: 'A description read and answered in plain SI, to see that it is what was meant.' },
  { name: 'Catalogue', description: 'What the service knows: rulesets, rules, examples, bounds, schemas.' },
  { name: 'Problems', description: 'What can be wrong with a request, code by code.' },
  { name: 'Operations', description: 'Health and the description of the service itself.' },
];

/** The parts of the OpenAPI document that no route states. */
export const openApiInfo = {
  openapi: '3.1.0',
  info: { title: 'Risefall', version: ENGINE_VERSION, description: DESCRIPTION },
  servers: [{ url: '/', description: 'The host that serves this document.' }],
  tags: [...tags],
  // Public and stateless: no call needs a credential.
  security: [],
};
