import { createFacts } from '../../facts/create-facts.js';
import type { Facts, LastClosure } from '../../facts/facts.js';
import { formatQuantity } from '../../rules/format-quantity.js';
import type { CarTest } from './car-test-schema.js';
import { operateTime } from './operate-time.js';

/** The stopwatch from the start to the last relay's click: the rise, and the relays' own times. Nothing where it never clicks. */
export function riseTimeTest(facts: Facts): CarTest[] {
  const { topology } = facts;
  const rise = riseTime(facts);
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

/** s from the closing of the pre-charge path to the command to the last relay. */
function riseTime(facts: Facts) {
  const { circuit, conditions, rise, sequence, topology, lastClosure } = facts;
  const closing = sequence.steps.findIndex(({ close }) => close.some((id) => topology.bridgedRelays.includes(id)));
  const measured = sequence.steps.slice(0, closing + 1).some(({ when }) => when !== undefined);
  const { threshold = conditions.threshold, comparisonError = 0 } = circuit.control.precharge ?? {};
  const level = sequence.source === 'stated' ? lastClosure?.waitsFor : measured ? threshold : undefined;
  // An order that is never through at nominal values has no click to wait for, whatever the comparison's error.
  const never = lastClosure === undefined || lastClosure.time.nominal === null;
  if (level !== undefined && (sequence.source === 'default' || !never)) {
    return {
      measured,
      min: ends(rise.timeTo(level - comparisonError)).min,
      max: ends(rise.timeTo(level + comparisonError)).max,
    };
  }
  const early = closureAt(facts, -comparisonError);
  const late = closureAt(facts, comparisonError);
  if (never || early === undefined) return { measured, min: null, max: null };
  return { measured, min: ends(early.time).min, max: late === undefined ? null : ends(late.time).max };
}

/** The closing of the last relay with every rising level that the order waits for moved by the comparison's error. */
function closureAt({ circuit, conditions, sequence, lastClosure }: Facts, error: number): LastClosure | undefined {
  if (error === 0 || sequence.source !== 'stated') return lastClosure;
  const moved = sequence.steps.map(({ when, ...step }) => {
    if (when === undefined) return step;
    return { ...step, when: when.falling ? when : { ...when, linkRatio: when.linkRatio + error } };
  });
  return createFacts({ ...circuit, control: { ...circuit.control, sequence: moved } }, conditions).lastClosure;
}

function ends({ min, max, reached }: Facts['rise']['timeToThreshold']) {
  return { min, max: reached === 'always' ? max : null };
}
