import type { Facts, SeparationState } from '../../facts/facts.js';
import { formatQuantity } from '../../rules/format-quantity.js';
import type { CarTest } from './car-test-schema.js';
import { type DeadResistance, deadResistance } from './dead-resistance.js';

/** Ω above which an ohmmeter's reading is called open. Common practice, no source. */
const OPEN = 1e6;
/** Ratio by which two readings must differ to be told apart on a hand-held instrument of about 1 %. Ours. */
const APART = 1.03;

type Otherwise = CarTest['otherwise'][number];

/** The dead car with an ohmmeter: with the disconnect closed, and once more with it open. */
export function deadLinkTests(facts: Facts): CarTest[] {
  const stateOf = (scenario: SeparationState['scenario']): SeparationState | undefined =>
    facts.falls.find(({ state }) => state.scenario === scenario && state.container === undefined)?.state;
  const closed = stateOf('container-removed');
  const open = facts.topology.disconnects.length === 0 ? undefined : stateOf('all-separated');
  const joined = closed && deadResistance(facts, closed);
  const parted = open && deadResistance(facts, open);
  return [
    ...(joined === undefined
      ? []
      : [
          deadLinkTest(facts, 'dead-link-resistance', joined, {
            position: facts.topology.disconnects.length === 0 ? '' : ', disconnect closed',
            otherwise: [],
          }),
        ]),
    ...(joined === undefined || parted === undefined
      ? []
      : [
          deadLinkTest(facts, 'dead-link-resistance-disconnected', parted, {
            position: ', disconnect open',
            otherwise: lostWithDisconnect(joined, parted),
          }),
        ]),
  ];
}

interface Variant {
  readonly position: string;
  readonly otherwise: readonly Otherwise[];
}

function deadLinkTest(facts: Facts, id: string, reading: DeadResistance, { position, otherwise }: Variant): CarTest {
  const { positive, negative } = facts.circuit.measuringPoints ?? { positive: '', negative: '' };
  const joined = reading.max < OPEN;
  return {
    id,
    state: `Every accumulator container out of the car, the link proved dead${position}`,
    action:
      'Measure the voltage at the measuring points first and go on only at 0 V, the voltmeter proved before and after. Then connect the ohmmeter and wait until the reading stands still: the capacitors charge from it.',
    measure: `Resistance between the measuring points ${positive} and ${negative}.`,
    unit: 'Ω',
    expect: { min: Math.min(reading.min, OPEN), max: joined ? reading.max : null },
    otherwise: [...otherwise, ...readings(facts, reading)],
  };
}

function readings({ topology }: Facts, { min, max, withoutDischarge, shorted }: DeadResistance): Otherwise[] {
  const discharge = topology.dischargeResistors.join(', ');
  const contacts =
    topology.dischargeContacts.length === 0 ? '' : `, its contact (${topology.dischargeContacts.join(', ')})`;
  const lost = discharge !== '' && withoutDischarge > max * APART;
  const open = max < OPEN;
  const brokenPoint =
    'A lead or a resistor of the measuring points is broken: they then read 0 V whatever stands on the link. Treat it as charged.';
  const noDischarge = `No discharge path: the resistor (${discharge})${contacts} or a lead of it is open. The capacitors keep their charge.`;
  const found: Otherwise[] = [];
  if (min > shorted * APART) {
    found.push({
      reading: `${formatQuantity(shorted, 'Ω')} or less`,
      means: 'The link is shorted, or the measuring points are: find out where before anything is energised.',
    });
    found.push({
      reading: `Less than ${formatQuantity(Math.min(min, OPEN), 'Ω')}`,
      means: 'Something that is not described stands across the link, or the discharge resistor is smaller.',
    });
  }
  if (lost && withoutDischarge < OPEN) {
    found.push({ reading: `About ${formatQuantity(withoutDischarge, 'Ω')}`, means: noDischarge });
  }
  if (!open) {
    found.push({
      reading: 'Over range',
      means:
        'As described nothing discharges the link in this state, and a broken lead of the measuring points reads the same: treat the capacitors as charged.',
    });
    return found;
  }
  found.push({
    reading: `More than ${formatQuantity(max, 'Ω')}`,
    means: 'The discharge resistor is larger than described, and the fall takes longer.',
  });
  const alsoLost = lost && withoutDischarge >= OPEN;
  found.push({
    reading: 'Over range',
    means: alsoLost ? `${noDischarge} Or: ${lowerFirst(brokenPoint)}` : brokenPoint,
  });
  return found;
}

/** What the disconnect takes away where the paper says that it takes nothing. */
function lostWithDisconnect(joined: DeadResistance, parted: DeadResistance): Otherwise[] {
  if (parted.max >= OPEN || parted.withoutDischarge <= parted.max * APART) return [];
  const shows = Math.max(joined.max, parted.max);
  return [
    {
      reading: `As expected with the disconnect closed, but more than ${formatQuantity(shows, 'Ω')} with it open`,
      means:
        'The discharge hangs on the far side of the disconnect: once that is pulled nothing discharges the capacitors.',
    },
  ];
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
