import { conditionsOf } from './conditions-of.js';
import type { Ruleset } from './ruleset.js';
import type { RulesetData } from './ruleset-schema.js';
import { collegiateEv2014 } from './rulesets/collegiate-ev-2014.js';
import { collegiateEv2024 } from './rulesets/collegiate-ev-2024.js';
import { collegiateEv2026 } from './rulesets/collegiate-ev-2026.js';
import { studentEv2020 } from './rulesets/student-ev-2020.js';
import { studentEv2026 } from './rulesets/student-ev-2026.js';

const inForce = (data: RulesetData): Ruleset => ({ ...data, conditions: conditionsOf(data.parameters) });

/** Every ruleset, in order of id. */
export const rulesets: readonly Ruleset[] = [
  inForce(collegiateEv2014),
  inForce(collegiateEv2024),
  inForce(collegiateEv2026),
  inForce(studentEv2020),
  inForce(studentEv2026),
];
