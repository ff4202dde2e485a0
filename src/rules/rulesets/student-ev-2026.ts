import { studentEv2020 } from './student-ev-2020.js';
import { withChanges } from './with-changes.js';

/** A row of EV 5, which was read in the older copy only. */
const carriedOver = { confirmed: 'memory' } as const;
const fromOlder = {
  ...carriedOver,
  note: 'Read in an older copy; not checked against this year’s text.',
} as const;
/** A row of EV 4 or EV 6 that the older ruleset has from memory. */
const readNow = { confirmed: 'read' } as const;

export const studentEv2026 = withChanges(studentEv2020, {
  id: 'student-ev-2026',
  revision: '1',
  source: { document: 'Formula Student Rules', version: '2026 generation' },
  note: 'EV 4 and EV 6 read in a copy whose year is inferred; EV 5 carried over from an older copy, so check it against the book.',
  parameters: {
    threshold: fromOlder,
    prechargeDecision: fromOlder,
    dischargeVoltage: { note: undefined },
    dischargeVoltageStrict: { note: 'Below, not at, the voltage.' },
    dischargeVoltageAc: { note: 'RMS; the AC side is not computed.' },
    dischargeTime: { note: undefined },
    dischargeTimeStrict: { note: 'In less than the time.' },
    dischargeRatingTime: { note: 'null: permanently.' },
    repeats: {
      note: 'Three discharges in a row within 15 s must still keep the time; beyond that it may be exceeded.',
    },
    maximumReleaseTime: { value: 0.25, unit: 's', clause: 'EV 6.1.5', ...readNow },
    separationStates: {
      note: 'Active whenever the shutdown circuit is open, with the disconnect open and with the accumulator disconnected.',
    },
    maximumVoltage: { ...readNow, note: undefined },
    fuseBelowBreakingCurrent: fromOlder,
    bodyProtection: {
      ...readNow,
      note: 'As printed, exactly 200 V has no row of its own; it is taken with the voltages below it.',
    },
  },
  rules: {
    'precharge-reaches-threshold': carriedOver,
    'precharge-compares-voltages': carriedOver,
    'precharge-setting': carriedOver,
    'precharge-relay-type': carriedOver,
    'precharge-through-relay': carriedOver,
    'precharge-supply': readNow,
    'precharge-order': carriedOver,
    'isolation-both-poles': carriedOver,
    'no-unswitched-voltage-outside': carriedOver,
    'main-fuse': carriedOver,
    'indicator-sees-contacts': { clauses: ['EV 4.10.3', 'EV 4.10.5'] },
    'indicator-sees-voltage': readNow,
    'guided-auxiliaries': { clauses: ['EV 4.10.3', 'EV 4.10.5'] },
    'measuring-points': readNow,
    'highest-voltage': readNow,
  },
});
