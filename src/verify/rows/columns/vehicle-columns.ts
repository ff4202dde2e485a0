import type { Column } from '../column.js';
import { quantityColumn, tolerancedColumns, wiringColumn } from './shorthand.js';
import { resistorColumns } from './resistor-columns.js';

/** What stands between the container and the inverters, and what looks at it. */
export const vehicleColumns: readonly Column[] = [
  wiringColumn(
    'disconnect_place',
    ['positive-line', 'negative-line', 'between-containers', 'none'],
    'Which line the high-voltage disconnect opens, outside the container.',
    'always',
  ),
  quantityColumn('disconnect_voltage_rating', 'positiveVoltage', 'disconnect', '/ratedVoltage', 'Of the disconnect.'),
  quantityColumn('plug_voltage_rating', 'positiveVoltage', 'plug', '/ratedVoltage', 'Of the container’s plugs.'),
  wiringColumn(
    'meter_place',
    ['ahead-of-disconnect', 'behind-disconnect', 'container', 'none'],
    'Where the energy meter’s voltage input is connected.',
    'unless the event states a meter',
  ),
  ...tolerancedColumns(
    'meter_resistance',
    'positiveResistance',
    'meter',
    '/resistance',
    'Between the energy meter’s two voltage inputs.',
    { required: 'with a meter' },
  ),
  wiringColumn(
    'measuring_point_place',
    ['behind-disconnect', 'ahead-of-disconnect'],
    'Where the leads of the measuring points begin.',
    'with measuring_point_resistance',
  ),
  ...tolerancedColumns(
    'measuring_point_resistance',
    'resistance',
    'point-resistor',
    '/resistance',
    'The body-protection resistor of each measuring point.',
  ),
  ...resistorColumns('measuring_point', 'point-resistor'),
  {
    name: 'indicator_watches',
    meaning: 'Relays whose contacts the active light watches.',
    cell: { form: 'words', words: ['isolation-relays', 'precharge-relay', 'none'] },
    target: { part: 'circuit', field: '/indicator/watches' },
    drawn: true,
  },
  {
    name: 'indicator_senses',
    meaning: 'Voltages that the active light senses: at the container’s terminals, behind the disconnect.',
    cell: { form: 'words', words: ['container', 'behind-disconnect', 'none'] },
    target: { part: 'circuit', field: '/indicator/senses' },
    drawn: true,
  },
  {
    name: 'container_indicator',
    meaning:
      'Whether the container’s own indicator senses the voltage at its terminals; of several containers, whether each one’s does. `no` states that none does.',
    cell: { form: 'yes-no' },
    target: { part: 'circuit', field: '/containerIndicator/senses' },
    drawn: true,
  },
  quantityColumn('ambient_max', 'temperature', 'circuit', '/ambient/max', 'The warmest air around the car.'),
];

/** The intermediate circuit. */
export const linkColumns: readonly Column[] = [
  ...tolerancedColumns(
    'link_capacitance',
    'capacitance',
    'link-capacitor',
    '/capacitance',
    'Of all inverters together.',
    { required: 'always', share: 'divided' },
  ),
  ...tolerancedColumns(
    'link_esr',
    'resistance',
    'link-capacitor',
    '/esr',
    'Series resistance of the link’s capacitors together.',
    {
      share: 'multiplied',
    },
  ),
  quantityColumn(
    'link_voltage_rating',
    'positiveVoltage',
    'link-capacitor',
    '/ratedVoltage',
    'Of the link’s capacitors.',
  ),
];
