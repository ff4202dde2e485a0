import type { Column, Part } from '../column.js';
import { quantityColumn, wordColumn } from './shorthand.js';

/** What a data sheet says of a relay, and how it is fed and watched. */
export function relayColumns(prefix: string, part: Part, supplyName = `${prefix}_supply`): Column[] {
  const name = (rest: string): string => `${prefix}_${rest}`;
  return [
    wordColumn(
      name('construction'),
      ['electromechanical', 'solid-state'],
      part,
      '/construction',
      'How the relay is made.',
    ),
    wordColumn(
      supplyName,
      ['shutdown-circuit', 'controller', 'independent'],
      part,
      '/suppliedBy',
      'What holds the relay: the shutdown circuit, software behind it, or a supply of its own.',
    ),
    wordColumn(name('auxiliary'), ['none', 'plain', 'guided', 'mirror'], part, '/auxiliary', 'Its auxiliary contact.'),
    wordColumn(
      name('auxiliary_contact'),
      ['normally-closed', 'normally-open'],
      part,
      '/auxiliaryContact',
      'Which way the auxiliary contact works.',
    ),
    quantityColumn(name('voltage_rating'), 'positiveVoltage', part, '/ratings/dcVoltage', 'Rated DC voltage.'),
    quantityColumn(name('making_current'), 'current', part, '/ratings/makingCurrent', 'What it may close onto.'),
    quantityColumn(name('breaking_current'), 'current', part, '/ratings/breakingCurrent', 'What it may open.'),
    quantityColumn(name('carrying_current'), 'current', part, '/ratings/carryingCurrent', 'What it carries for ever.'),
    quantityColumn(name('operate_time'), 'time', part, '/operateTime', 'From the command to the movement.'),
    quantityColumn(
      name('release_time'),
      'time',
      part,
      '/releaseTime',
      'From the opening of the shutdown circuit to the movement.',
    ),
  ];
}
