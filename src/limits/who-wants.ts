const WANTS: Readonly<Record<string, string>> = {
  'precharge-resistance-max-loads': 'the ruleset’s level under the loads of the rise',
  'precharge-resistance-max-setting': 'the setting of the comparison under the loads of the rise',
  'precharge-resistance-max-time': 'the time allowed for the rise',
  'precharge-resistance-min-current': 'the relays’ rating for the charging current',
  'precharge-resistance-min-energy': 'the pre-charge resistor’s power rating',
  'precharge-load-resistance-min': 'the ruleset’s level with this part as a load of the rise',
  'link-capacitance-max-precharge': 'the time allowed for the rise',
  'link-capacitance-max-discharge': 'the time for the discharge',
  'discharge-resistance-max-time': 'the time for the discharge',
  'discharge-resistance-min-power': 'the discharge resistor’s power rating',
  'measuring-point-resistance': 'the power in a short of the measuring points',
};

/** In words, what asks for the bound of a limit on a resistance or capacitance, with the limit’s name behind it. */
export function whoWants(name: string): string {
  const words = WANTS[name];
  return words === undefined ? name : `${words} (${name})`;
}
