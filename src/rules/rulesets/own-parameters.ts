import type { RulesetParameters } from '../parameters-schema.js';

type Own = Pick<
  RulesetParameters,
  | 'assumedTolerance'
  | 'maximumReleaseTime'
  | 'repeats'
  | 'dischargeClock'
  | 'isolationPerVolt'
  | 'bodyProtection'
  | 'prechargeDecision'
>;

/**
 * Values of our own for what a book may leave open. A ruleset takes the rows it needs, and states its book's own where the
 * book has one; each shows in the catalogue as ours.
 */
export const ownParameters: Own = {
  assumedTolerance: {
    value: { resistor: 0.1, capacitor: 0.2, meter: 0.02 },
    confirmed: 'ours',
    note: 'Taken where a part states no tolerance: IEC 60063 ties 10 % to E12; 20 % is usual for a new electrolytic capacitor.',
  },
  maximumReleaseTime: {
    value: 0.25,
    unit: 's',
    confirmed: 'ours',
    note: 'The book names no longest delay of a relay’s opening; the value is the one that newer books name.',
  },
  repeats: {
    value: { count: 3, within: 15 },
    confirmed: 'ours',
    note: 'The book names no series of starts or discharges; the value is the one of the student rulebooks.',
  },
  dischargeClock: {
    value: 'shutdown-opens',
    confirmed: 'ours',
    note: 'The wording leaves open whether the time counts from the shutdown circuit or from the relays; this is the stricter reading.',
  },
  isolationPerVolt: {
    value: 500,
    unit: 'Ω/V',
    confirmed: 'ours',
    note: 'Not read in this book; the value is the one of the student rulebooks.',
  },
  bodyProtection: {
    value: [
      { upTo: 200, resistance: 5000 },
      { upTo: 400, resistance: 10_000 },
      { upTo: 600, resistance: 15_000 },
    ],
    unit: 'V, Ω',
    confirmed: 'ours',
    note: 'Not read in this book; the steps are those of newer ones.',
  },
  prechargeDecision: {
    value: 'measured-voltage',
    confirmed: 'ours',
    note: 'Not read in this book; comparing measured voltages is the stricter reading.',
  },
};
