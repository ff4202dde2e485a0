import { capacities } from '../../../circuit/capacities.js';
import type { Column } from '../column.js';
import { relayColumns } from './relay-columns.js';
import { resistorColumns } from './resistor-columns.js';
import { quantityColumn, tolerancedColumns, wiringColumn, wordColumn } from './shorthand.js';

const SIDES = ['container', 'vehicle'];

/** The pre-charge branch, and how the car decides that the link is charged. */
export const prechargeColumns: readonly Column[] = [
  ...tolerancedColumns(
    'precharge_resistance',
    'resistance',
    'precharge-resistor',
    '/resistance',
    'Of the pre-charge resistor.',
    { required: 'always' },
  ),
  wiringColumn('precharge_relay_place', SIDES, 'Inside the accumulator container, or elsewhere in the car.', 'always'),
  wiringColumn(
    'precharge_resistor_place',
    SIDES,
    'Inside the accumulator container, or elsewhere in the car.',
    'always',
  ),
  {
    name: 'precharge_fused',
    meaning: 'Whether the pre-charge branch has a fuse of its own.',
    cell: { form: 'yes-no' },
    required: 'always',
  },
  quantityColumn(
    'precharge_fuse_voltage_rating',
    'positiveVoltage',
    'precharge-fuse',
    '/ratedDcVoltage',
    'Rated DC voltage of that fuse.',
  ),
  wordColumn(
    'precharge_method',
    ['voltage-comparison', 'timer'],
    'circuit',
    '/control/precharge/method',
    'What decides that the link is charged.',
  ),
  quantityColumn(
    'precharge_threshold',
    'fraction',
    'circuit',
    '/control/precharge/threshold',
    'The share of the accumulator’s voltage at which the last relay closes.',
  ),
  quantityColumn(
    'precharge_comparison_error',
    'fraction',
    'circuit',
    '/control/precharge/comparisonError',
    'The largest error of that comparison, in that share.',
  ),
  wordColumn(
    'precharge_reference',
    ['measured', 'fixed'],
    'circuit',
    '/control/precharge/reference',
    'Compared with the measured accumulator voltage, or with a fixed one.',
  ),
  quantityColumn(
    'precharge_fixed_voltage',
    'positiveVoltage',
    'circuit',
    '/control/precharge/fixedVoltage',
    'The fixed voltage it is compared with.',
  ),
  {
    name: 'precharge_accumulator_sense',
    meaning: 'Where the accumulator’s voltage is read: at its outermost poles, ahead of the isolation relays.',
    cell: { form: 'word', words: ['pack'] },
    target: { part: 'circuit', field: '/control/precharge/accumulatorSense' },
    drawn: true,
  },
  {
    name: 'precharge_link_sense',
    meaning: 'Where the link’s voltage is read: behind the disconnect, ahead of it, or at the container’s terminals.',
    cell: { form: 'word', words: ['behind-disconnect', 'ahead-of-disconnect', 'container'] },
    target: { part: 'circuit', field: '/control/precharge/linkSense' },
    drawn: true,
  },
  quantityColumn('precharge_timer_delay', 'time', 'circuit', '/control/precharge/delay', 'How long a timer runs.'),
  quantityColumn(
    'precharge_timeout',
    'time',
    'circuit',
    '/control/precharge/timeout',
    'After which an attempt that has not come to an end is given up.',
  ),
  {
    name: 'precharge_attempts',
    meaning: 'Starts in a row before the car gives up.',
    cell: { form: 'count', minimum: 1, maximum: capacities.attempts },
    target: { part: 'circuit', field: '/control/precharge/attempts' },
  },
  quantityColumn(
    'precharge_retry_interval',
    'time',
    'circuit',
    '/control/precharge/retryInterval',
    'Between two such starts.',
  ),
  quantityColumn(
    'precharge_restart_interval_min',
    'time',
    'circuit',
    '/control/precharge/minimumRestartInterval',
    'The shortest time from one start by the driver to the next.',
  ),
  ...resistorColumns('precharge', 'precharge-resistor'),
  ...relayColumns('precharge_relay', 'precharge-relay'),
];
