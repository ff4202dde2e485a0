import type { Facts } from '../../facts/facts.js';
import { formatQuantity } from '../../rules/format-quantity.js';
import type { Ruleset } from '../../rules/ruleset.js';
import type { CarTest } from './car-test-schema.js';

/**
 * Starting with the link cut off: the last relay must not close, whatever the paper says. Left out where a timer decides and
 * the ruleset allows it, since a timer closes the relay anyhow.
 */
export function cutOffTest({ circuit, topology }: Facts, ruleset: Ruleset): CarTest[] {
  const { method, timeout, attempts = 1 } = circuit.control.precharge ?? {};
  const last = topology.bridgedRelays.join(', ');
  const timerAllowed = ruleset.parameters.prechargeDecision.value === 'measured-voltage-or-timer';
  if (last === '' || (method === 'timer' && timerAllowed)) return [];
  const how =
    topology.disconnects.length === 0
      ? 'Part the link from the accumulator with everything proved dead, then start'
      : 'With everything proved dead open the disconnect, then start';
  return [
    {
      id: 'start-with-link-cut-off',
      state: 'Accumulator in the car, link cut off and discharged, an official present',
      action: `${how} the tractive system and keep clear. An interlock that refuses the start is a result too: then nothing closes.`,
      measure: `Clicks of the last isolation relay (${last}).`,
      unit: 'clicks',
      expect: { min: 0, max: 0 },
      otherwise: [
        {
          reading: 'The last relay closes',
          means:
            'A timer decides, or the comparison senses another place than the link: it would also close onto an empty capacitor. Open the shutdown circuit and keep clear.',
        },
        ...(timeout === undefined
          ? []
          : [
              {
                reading: `The pre-charge relay is still closed ${formatQuantity(timeout * attempts, 's')} after the ${attempts === 1 ? 'start' : 'first start, pauses between attempts left out'}`,
                means: 'Nothing ends a rise that gets nowhere, and the pre-charge resistor goes on heating.',
              },
            ]),
      ],
    },
  ];
}
