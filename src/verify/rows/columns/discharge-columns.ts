import type { Column } from '../column.js';
import { relayColumns } from './relay-columns.js';
import { resistorColumns } from './resistor-columns.js';
import { quantityColumn, tolerancedColumns, wiringColumn } from './shorthand.js';

const WITH_DISCHARGE = 'unless discharge_place is none';

/** The discharge circuit. */
export const dischargeColumns: readonly Column[] = [
  wiringColumn(
    'discharge_place',
    ['behind-disconnect', 'ahead-of-disconnect', 'container', 'none'],
    'Where the discharge circuit is connected; none: there is none.',
    'always',
  ),
  ...tolerancedColumns(
    'discharge_resistance',
    'resistance',
    'discharge-resistor',
    '/resistance',
    'Of the discharge resistor.',
    { required: WITH_DISCHARGE },
  ),
  wiringColumn(
    'discharge_rest',
    ['closed', 'open', 'no-contact'],
    'The discharge relay’s contact with nothing energised; no-contact: the resistor is always connected.',
    WITH_DISCHARGE,
  ),
  {
    name: 'discharge_fused',
    meaning: 'Whether a fuse stands in the discharge path.',
    cell: { form: 'yes-no' },
    required: WITH_DISCHARGE,
  },
  quantityColumn(
    'discharge_fuse_voltage_rating',
    'positiveVoltage',
    'discharge-fuse',
    '/ratedDcVoltage',
    'Rated DC voltage of that fuse.',
  ),
  ...relayColumns('discharge_relay', 'discharge-relay', 'discharge_supply'),
  ...resistorColumns('discharge', 'discharge-resistor'),
];
