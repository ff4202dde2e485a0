import type { Facts } from '../../facts/facts.js';
import { formatQuantity } from '../../rules/format-quantity.js';
import type { Ruleset } from '../../rules/ruleset.js';
import type { CarTest } from './car-test-schema.js';
import { operateTime } from './operate-time.js';
import type { RiseTime } from './rise-time.js';

/** The stopwatch from the start to the last relay's click: the rise, and the relays' own times. Nothing where it never clicks. */
export function riseTimeTest(facts: Facts, _ruleset: Ruleset, riseTime: () => RiseTime): CarTest[] {
  const { topology } = facts;
  const rise = riseTime();
  const last = topology.bridgedRelays;
  if (rise.min === null || last.length === 0) return [];
  // A relay that waits for the voltage waits for the relays that begin the rise; one that waits for a time does not.
  const first = rise.measured
    ? operateTime(facts, [...topology.completingRelays, ...topology.prechargeRelays])
    : { min: 0, max: 0 };
  const closing = operateTime(facts, last);
  const min = first.min + rise.min + closing.min;
  const max = rise.max === null ? null : first.max + rise.max + closing.max;
  return [
    {
      id: 'rise-time',
      state: 'Car complete, link discharged, wheels at standstill, an official present',
      action:
        'Start the tractive system. Start the watch with it and stop it at the click of the last isolation relay.',
      measure: `Time from the start to the click of ${last.join(', ')}.`,
      unit: 's',
      expect: { min, max },
      otherwise: [
        {
          reading: `Sooner than ${formatQuantity(min, 's')}`,
          means:
            'The link is smaller or the pre-charge resistance lower than described, or the last relay does not wait for the threshold: stop, and start with the link cut off.',
        },
        ...(max === null
          ? []
          : [
              {
                reading: `Later than ${formatQuantity(max, 's')}`,
                means:
                  'The link or the pre-charge resistance is larger than described, the threshold is set higher, or something loads the link.',
              },
            ]),
        {
          reading: 'No click',
          means:
            'The threshold is not reached: something loads the link, a lead of the comparison is open, or the pre-charge path is.',
        },
      ],
    },
  ];
}
