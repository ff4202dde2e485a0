import { collegiateEv2024 } from './collegiate-ev-2024.js';
import { withChanges } from './with-changes.js';

export const collegiateEv2026 = withChanges(collegiateEv2024, {
  id: 'collegiate-ev-2026',
  revision: '1',
  source: { document: 'Formula SAE Rules', version: '2026 V1.0' },
  note: 'Read in a copy of the document; rows marked memory want checking. Its lights (EV.5.10, EV.5.11) are not judged.',
  parameters: {
    prechargeDecision: { value: 'measured-voltage', clause: 'EV.5.6.2a', confirmed: 'read' },
  },
  rules: {
    'precharge-compares-voltages': { clauses: ['EV.5.6.2a'] },
    'precharge-relay-type': { clauses: ['EV.5.6'] },
    'precharge-unfused': null,
    'no-ptc': null,
    'indicator-sees-voltage': null,
  },
});
