/**
 * What the labels take from the books, by hand from the public rulebooks (Formula Student Rules 2020 and the 2026 generation,
 * Formula SAE Rules 2024 and 2026); the service's own data files are not read.
 */
export interface Book {
  readonly id: string;
  /** Ratio before the last relay may close: EV 5.7.1, EV.5.6.1a. */
  readonly level: number;
  /** EV.5.6.2 of 2024 allows a timer; EV 5.7.1 and EV.5.6.2a of 2026 do not. */
  readonly timerAllowed: boolean;
  /** The discharge must also work with the accumulator disconnected (EV 4.9.2). */
  readonly containerLeaves: boolean;
  /** The discharge resistor stands the voltage permanently (EV 4.9.1); else for 15 s (EV.5.6.3d). */
  readonly permanentRating: boolean;
  /** The fuse is compared with what the relays can break (EV 5.6.4). */
  readonly fuseBelowRelay: boolean;
  /** Rules for which the book has no clause, and which are no advice there either. */
  readonly silent: readonly string[];
}

const relayStates = ['indicator-sees-contacts', 'guided-auxiliaries'];
const prechargeParts = ['precharge-unfused', 'no-ptc'];

const student: Omit<Book, 'id'> = {
  level: 0.95,
  timerAllowed: false,
  containerLeaves: true,
  permanentRating: true,
  fuseBelowRelay: true,
  // No sentence about fuses or PTCs in the pre-charge was found in these books.
  silent: prechargeParts,
};

const collegiate: Omit<Book, 'id'> = {
  level: 0.9,
  timerAllowed: false,
  containerLeaves: false,
  permanentRating: false,
  fuseBelowRelay: false,
  // The light is about voltage, not about relays (EV.5.9).
  silent: relayStates,
};

export const books: readonly Book[] = [
  { id: 'student-ev-2020', ...student },
  { id: 'student-ev-2026', ...student },
  { id: 'collegiate-ev-2024', ...collegiate, timerAllowed: true },
  {
    id: 'collegiate-ev-2026',
    ...collegiate,
    // Fuses and PTCs are no longer prohibited, and the active light has given way to others (EV.5.10, EV.5.11).
    silent: [...relayStates, ...prechargeParts, 'indicator-sees-voltage'],
  },
];
