import type { Meter } from '../../circuit/model.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { listOutcome } from '../list-outcome.js';
import { measuredAgainst } from '../measured-against.js';
import { relativeTolerance } from '../relative-tolerance.js';
import { ROUNDING } from '../rounding.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'event-meter-differs',
    title: 'The energy meter described is the event’s',
    rationale:
      'The energy meter loads the link while it charges, so it decides how large the pre-charge resistor may be. What was worked out with another meter need not hold with the one that the event fits.',
    parameters: ['assumedTolerance'],
    messages: {
      met: 'The energy meter described ({elements}) fits the event’s, {event}.',
      violated:
        'The energy meter described differs from the event’s: {problems}. The lower resistance of the two was used for the rise.',
      undetermined: 'Whether the energy meter described is the event’s, {event}, cannot be told without {fields}.',
      noEvent: 'The event states no energy meter of its own.',
      notDescribed: 'No energy meter is described, so the event’s ({event}) was added to the rise.',
    },
    remedies: {
      describe:
        'State {event} for the energy meter, or take it out of the description: the event’s is added by itself.',
    },
    inspect: 'Read the type of the energy meter fitted to the car, and measure it with everything proved dead.',
  },
  check({ circuit, conditions }): Outcome {
    const { eventMeterResistance: wanted, assumedTolerance } = conditions;
    if (wanted === undefined) return { status: 'not-applicable', message: 'noEvent' };
    const event = formatQuantity(wanted, 'Ω');
    const meters = circuit.elements.filter(
      (element): element is Meter => element.kind === 'meter' && element.role === 'energy-meter',
    );
    const [first] = meters;
    if (first === undefined) return { status: 'not-applicable', message: 'notDescribed', values: { event } };
    const off = ({ resistance }: Meter) => Math.abs(1 - wanted / resistance.nominal);
    const differing = meters.filter((meter) => off(meter) > ROUNDING);
    const share = ({ resistance }: Meter) => relativeTolerance(resistance, assumedTolerance.meter);
    const outside = differing.filter((meter) => off(meter) > share(meter) + ROUNDING);
    // A bare value that is near says nothing of whether the same meter is meant.
    const near = differing.filter((meter) => !outside.includes(meter) && !meter.resistance.toleranceStated);
    const missing = near.map(({ pointer }) => `${pointer}/resistance`);
    const worst = meters.reduce((farthest, meter) => (off(meter) > off(farthest) ? meter : farthest), first);
    return listOutcome(circuit, {
      wrong: outside.map(({ id, resistance }) => {
        const texts = formatAgainst(resistance.nominal, wanted, 'Ω');
        return { elements: [id], text: `${id} is ${texts.value}, the event’s ${texts.limit}` };
      }),
      missing,
      elements: meters.map(({ id }) => id),
      evidence: {
        ...measuredAgainst({ actual: off(worst), limit: share(worst), side: 'below', unit: 'ratio' }),
        described: worst.resistance.nominal,
        event: wanted,
      },
      values: { event },
      remedy: 'describe',
    });
  },
};
