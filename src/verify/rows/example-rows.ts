import type { Arrangement } from './arrangements.js';
import { arrangements } from './arrangements.js';

const resistor = (prefix: string, power: string): Record<string, string> => ({
  [`${prefix}_power_rating`]: power,
  [`${prefix}_technology`]: 'wirewound',
  [`${prefix}_mounting`]: 'as-rated',
  [`${prefix}_power_rating_free_air`]: '15 W',
  [`${prefix}_ambient_max`]: '60 °C',
  [`${prefix}_full_power_up_to`]: '25 °C',
  [`${prefix}_zero_power_at`]: '250 °C',
  [`${prefix}_voltage_rating`]: '1500 V',
  [`${prefix}_overload_factor`]: '5',
  [`${prefix}_overload_duration`]: '5 s',
  [`${prefix}_thermal_resistance`]: '1.5 K/W',
  [`${prefix}_heat_capacity`]: '180 J/K',
  [`${prefix}_temperature_max`]: '250 °C',
  [`${prefix}_neighbour_temperature_max`]: '240 °C',
});

const relay = (prefix: string, auxiliary: string, breaking: string): Record<string, string> => ({
  [`${prefix}_construction`]: 'electromechanical',
  [`${prefix}_auxiliary`]: auxiliary,
  [`${prefix}_voltage_rating`]: '900 V',
  [`${prefix}_making_current`]: '650 A',
  [`${prefix}_breaking_current`]: breaking,
  [`${prefix}_carrying_current`]: '250 A',
  [`${prefix}_operate_time`]: '25 ms',
  [`${prefix}_release_time`]: '30 ms',
});

/** Every cell filled but for counts and fixed voltages: an invented car. */
const common: Readonly<Record<string, string>> = {
  pack_voltage_min: '300 V',
  pack_voltage_nominal: '370 V',
  pack_voltage_max: '420 V',
  pack_resistance: '200 mΩ',
  pack_resistance_tolerance: '15 %',
  main_fuse_current: '160 A',
  main_fuse_voltage_rating: '700 V',
  main_fuse_breaking_current: '20 kA',
  operating_current: '110 A',
  link_capacitance: '470 µF',
  link_capacitance_tolerance: '20 %',
  link_esr: '3 mΩ',
  link_esr_tolerance: '20 %',
  link_voltage_rating: '500 V',
  precharge_resistance: '1 kΩ',
  precharge_resistance_tolerance: '5 %',
  precharge_relay_place: 'container',
  precharge_resistor_place: 'container',
  precharge_fused: 'no',
  precharge_method: 'voltage-comparison',
  precharge_threshold: '96 %',
  precharge_comparison_error: '0.5 %',
  precharge_reference: 'measured',
  precharge_accumulator_sense: 'pack',
  precharge_link_sense: 'behind-disconnect',
  precharge_timeout: '4 s',
  precharge_attempts: '1',
  precharge_retry_interval: '10 s',
  precharge_restart_interval_min: '5 s',
  ...resistor('precharge', '150 W'),
  ...relay('precharge_relay', 'guided', '5 A'),
  precharge_relay_supply: 'shutdown-circuit',
  precharge_relay_auxiliary_contact: 'normally-closed',
  discharge_place: 'behind-disconnect',
  discharge_resistance: '3.3 kΩ',
  discharge_resistance_tolerance: '5 %',
  discharge_rest: 'closed',
  discharge_fused: 'no',
  discharge_supply: 'shutdown-circuit',
  ...relay('discharge_relay', 'none', '5 A'),
  ...resistor('discharge', '200 W'),
  meter_place: 'ahead-of-disconnect',
  meter_resistance: '47 kΩ',
  meter_resistance_tolerance: '1 %',
  disconnect_place: 'positive-line',
  disconnect_voltage_rating: '1000 V',
  plug_voltage_rating: '1000 V',
  measuring_point_place: 'behind-disconnect',
  measuring_point_resistance: '15 kΩ',
  measuring_point_resistance_tolerance: '1 %',
  ...resistor('measuring_point', '15 W'),
  indicator_watches: 'isolation-relays precharge-relay',
  indicator_senses: 'container behind-disconnect',
  container_indicator: 'yes',
  ambient_max: '45 °C',
  ...relay('isolation_relay', 'mirror', '2 kA'),
  isolation_relay_supply: 'shutdown-circuit',
  isolation_relay_auxiliary_contact: 'normally-closed',
};

const NAMES = ['Aldermoor 7', 'Brackwater 12', 'Colliers Gate 3', 'Dunsey 21'];

function exampleRow({ id, severalContainers }: Arrangement, index: number): Readonly<Record<string, string>> {
  return {
    car: NAMES[index] ?? id,
    arrangement: id,
    ...(severalContainers ? { container_count: '2' } : {}),
    ...common,
  };
}

/** One filled row for each arrangement: invented cars. */
export const exampleRows: readonly Readonly<Record<string, string>>[] = arrangements.map(exampleRow);
