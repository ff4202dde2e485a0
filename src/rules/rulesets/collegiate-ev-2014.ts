import type { RulesetData } from '../ruleset-schema.js';
import { adviceRows } from './advice-rows.js';
import { ownParameters } from './own-parameters.js';

const notRead = 'Not read in this book; the value is ours, after later ones.';

export const collegiateEv2014: RulesetData = {
  id: 'collegiate-ev-2014',
  revision: '1',
  source: { document: 'Formula SAE Rules', version: '2014, part EV' },
  note: 'Only EV4.12.1 and EV5.1.3 were read; the rest is advice of ours, so a verdict says little about this book.',
  parameters: {
    threshold: { value: 0.9, unit: 'ratio', clause: 'EV4.12.1', confirmed: 'read' },
    prechargeDecision: ownParameters.prechargeDecision,
    dischargeVoltage: { value: 40, unit: 'V', clause: 'EV5.1.3', confirmed: 'read' },
    dischargeVoltageStrict: { value: true, clause: 'EV5.1.3', confirmed: 'read', note: 'Below, not at, the voltage.' },
    dischargeVoltageAc: {
      value: 25,
      unit: 'V',
      clause: 'EV5.1.3',
      confirmed: 'read',
      note: 'RMS; the AC side is not computed.',
    },
    dischargeTime: { value: 5, unit: 's', clause: 'EV5.1.3', confirmed: 'read' },
    dischargeTimeStrict: { value: true, clause: 'EV5.1.3', confirmed: 'read', note: 'In less than the time.' },
    dischargeClock: ownParameters.dischargeClock,
    dischargeRatingTime: { value: 15, unit: 's', confirmed: 'ours', note: notRead },
    repeats: ownParameters.repeats,
    maximumReleaseTime: ownParameters.maximumReleaseTime,
    assumedTolerance: ownParameters.assumedTolerance,
    separationStates: { value: ['shutdown', 'disconnect-open'], confirmed: 'ours', note: notRead },
    isolationPerVolt: ownParameters.isolationPerVolt,
    maximumVoltage: {
      value: 600,
      unit: 'V',
      confirmed: 'memory',
      note: '300 V or 600 V, as the event chooses: an event states its own.',
    },
    fuseBelowBreakingCurrent: { value: false, confirmed: 'ours', note: notRead },
    bodyProtection: ownParameters.bodyProtection,
  },
  rules: [
    { rule: 'precharge-reaches-threshold', weight: 'rule', clauses: ['EV4.12.1'], confirmed: 'read' },
    { rule: 'precharge-setting', weight: 'rule', clauses: ['EV4.12.1'], confirmed: 'read' },
    { rule: 'precharge-supply', weight: 'rule', clauses: ['EV4.12.1'], confirmed: 'read' },
    { rule: 'precharge-order', weight: 'rule', clauses: ['EV4.12.1'], confirmed: 'read' },
    { rule: 'discharge-time', weight: 'rule', clauses: ['EV5.1.3'], confirmed: 'read' },
    { rule: 'highest-voltage', weight: 'advice', clauses: [], confirmed: 'memory' },
    { rule: 'precharge-compares-voltages', weight: 'advice', clauses: [], confirmed: 'ours' },
    { rule: 'precharge-relay-type', weight: 'advice', clauses: [], confirmed: 'ours' },
    { rule: 'precharge-through-relay', weight: 'advice', clauses: [], confirmed: 'ours' },
    { rule: 'isolation-both-poles', weight: 'advice', clauses: [], confirmed: 'ours' },
    { rule: 'no-unswitched-voltage-outside', weight: 'advice', clauses: [], confirmed: 'ours' },
    { rule: 'main-fuse', weight: 'advice', clauses: [], confirmed: 'ours' },
    { rule: 'disconnect-breaks-the-path', weight: 'advice', clauses: [], confirmed: 'ours' },
    { rule: 'discharge-fail-safe', weight: 'advice', clauses: [], confirmed: 'ours' },
    { rule: 'discharge-stays-with-car', weight: 'advice', clauses: [], confirmed: 'ours' },
    { rule: 'discharge-unfused', weight: 'advice', clauses: [], confirmed: 'ours' },
    { rule: 'discharge-rating', weight: 'advice', clauses: [], confirmed: 'ours' },
    { rule: 'discharge-repeats', weight: 'advice', clauses: [], confirmed: 'ours' },
    ...adviceRows,
  ],
};
