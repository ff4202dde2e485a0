import type { RulesetData } from '../ruleset-schema.js';

/** Good practice that no clause of these books names; the same advice in every ruleset. */
export const adviceRows: RulesetData['rules'] = [
  'event-meter-differs',
  'precharge-reaches-setting',
  'precharge-completes-in-time',
  'precharge-resistor-rating',
  'restart-heat',
  'fuse-breaking-current',
  'relay-ratings',
  'voltage-ratings',
  'discharge-surroundings',
  'discharge-while-coasting',
  'permanent-load-rating',
  'labels-agree',
  'simplicity',
].map((rule) => ({ rule, weight: 'advice', clauses: [], confirmed: 'ours' }));
