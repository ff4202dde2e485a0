import type { Facts } from '../../facts/facts.js';
import { formatQuantity } from '../../rules/format-quantity.js';
import type { Ruleset } from '../../rules/ruleset.js';
import { canStart } from './can-start.js';
import type { CarTest } from './car-test-schema.js';
import { deadResistance } from './dead-resistance.js';
import type { RiseTime } from './rise-time.js';

/** s after shutdown at which the voltage is read. */
const INSTANTS = [1, 2, 3, 4, 5];
/** Ω of a common hand-held voltmeter. Common practice, no source. */
const VOLTMETER = 1e7;

const STARTED = 'tractive system on, link at the accumulator’s voltage, wheels at standstill, an official present';

const STOP =
  'Stop, keep clear, call the responsible officer: the discharge is slower than described, or there is none, or a relay has not opened.';

/** The voltage at the measuring points 1 to 5 s after shutdown, nothing separated. */
export function residualVoltageTests(facts: Facts, ruleset: Ruleset, riseTime: () => RiseTime): CarTest[] {
  const { dischargeTime, dischargeVoltage } = ruleset.conditions;
  const points = facts.circuit.measuringPoints;
  const fall = facts.falls.find(({ state }) => state.scenario === 'shutdown');
  if (points === undefined || fall === undefined) return [];
  const behind = deadResistance(facts, fall.state)?.shorted ?? 0;
  // The resistors behind the points and the voltmeter divide what is read.
  const share = Number.isFinite(behind) ? VOLTMETER / (VOLTMETER + behind) : 0;
  const state = canStart(facts, riseTime)
    ? `${STARTED.charAt(0).toUpperCase()}${STARTED.slice(1)}`
    : `Only once the car can be started (as described its last isolation relay never closes), ${STARTED}`;
  return INSTANTS.flatMap((seconds): CarTest[] => {
    const { min, max } = fall.voltageAfter([points.positive, points.negative], seconds);
    if (min === null || max === null) return [];
    return [
      {
        id: `voltage-${String(seconds)}-s-after-shutdown`,
        state,
        action: 'Open the shutdown circuit and start the watch. Touch nothing but the voltmeter’s leads.',
        measure: `Voltage between the measuring points ${points.positive} and ${points.negative}, ${String(seconds)} s after the shutdown circuit has opened.`,
        unit: 'V',
        expect: { min: min * share, max },
        otherwise: [
          { reading: `Higher than ${formatQuantity(max, 'V')}`, means: STOP },
          ...(seconds < dischargeTime
            ? []
            : [
                {
                  reading: `Above ${formatQuantity(dischargeVoltage, 'V')}`,
                  means: 'The book’s limit is exceeded: stop, keep clear, call the responsible officer.',
                },
              ]),
          {
            reading: `Lower than ${formatQuantity(min * share, 'V')}`,
            means:
              'Loads that are not counted help, or the points do not read the link: prove the voltmeter on a known source before and after.',
          },
        ],
      },
    ];
  });
}
