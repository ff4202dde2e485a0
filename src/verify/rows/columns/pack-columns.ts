import type { Column } from '../column.js';
import { relayColumns } from './relay-columns.js';
import { quantityColumn, tolerancedColumns } from './shorthand.js';

const RANGE = 'with pack_voltage_max: all three, or the highest alone';

/** The accumulator between its outermost poles, with fuses and isolation relays. */
export const packColumns: readonly Column[] = [
  {
    name: 'pack_voltage_min',
    meaning: `Open-circuit voltage of the empty accumulator between its outermost poles; ${RANGE}.`,
    cell: { form: 'quantity', quantity: 'positiveVoltage' },
    target: { part: 'pack', field: '/voltage', share: 'divided' },
    drawn: true,
  },
  {
    name: 'pack_voltage_nominal',
    meaning: `Nominal open-circuit voltage; ${RANGE}.`,
    cell: { form: 'quantity', quantity: 'positiveVoltage' },
    target: { part: 'pack', field: '/voltage', share: 'divided' },
    drawn: true,
  },
  {
    name: 'pack_voltage_max',
    meaning: 'Open-circuit voltage of the full accumulator.',
    cell: { form: 'quantity', quantity: 'positiveVoltage' },
    required: 'always',
    target: { part: 'pack', field: '/voltage', share: 'divided' },
    drawn: true,
  },
  ...tolerancedColumns(
    'pack_resistance',
    'resistance',
    'pack',
    '/resistance',
    'Internal resistance of the whole accumulator.',
    {
      share: 'divided',
    },
  ),
  quantityColumn('main_fuse_current', 'current', 'main-fuse', '/ratedCurrent', 'Rated current of the main fuse.'),
  quantityColumn(
    'main_fuse_voltage_rating',
    'positiveVoltage',
    'main-fuse',
    '/ratedDcVoltage',
    'Its rated DC voltage.',
  ),
  quantityColumn('main_fuse_breaking_current', 'current', 'main-fuse', '/breakingCurrent', 'The current it can break.'),
  quantityColumn(
    'operating_current',
    'current',
    'circuit',
    '/operatingCurrent',
    'The largest continuous traction current.',
  ),
];

export const isolationRelayColumns: readonly Column[] = relayColumns('isolation_relay', 'isolation-relay');
