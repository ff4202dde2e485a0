import type { Facts, FallVoltage } from '../facts/facts.js';

/** The discharge resistors among the elements by which a voltage falls. */
export function dischargeResistorsIn(facts: Facts, voltage: FallVoltage): readonly string[] {
  return voltage.path.filter((id) => facts.topology.dischargeResistors.includes(id));
}

/** True where a voltage has lost the discharge resistors that it falls by while nothing is separated. */
export function hasLostDischarge(facts: Facts, voltage: FallVoltage): boolean {
  const unseparated = facts.falls
    .find(({ state }) => state.scenario === 'shutdown')
    ?.voltages.find(({ id }) => id === voltage.id);
  return (
    unseparated !== undefined &&
    dischargeResistorsIn(facts, unseparated).length > 0 &&
    dischargeResistorsIn(facts, voltage).length === 0
  );
}
