import { elementById, type Resistor } from '../../circuit/model.js';
import type { Facts, FallVoltage } from '../../facts/facts.js';
import { limit as largestResistance } from '../../limits/limits/discharge-resistance-max-time.js';
import { dischargeContactFault } from '../discharge-contact-fault.js';
import { dischargeResistorsIn, hasLostDischarge } from '../discharge-resistors-in.js';
import { elementsOf } from '../elements-of.js';
import { fieldNames } from '../field-names.js';
import { figureEvidence } from '../figure-evidence.js';
import { formatAgainst } from '../format-against.js';
import { formatQuantity } from '../format-quantity.js';
import { type DischargeJudgement, judgeDischarge } from '../judge-discharge.js';
import type { Judgement } from '../judge-figure.js';
import { measuredAgainst } from '../measured-against.js';
import { largestPreferred } from '../preferred-value.js';
import { relativeTolerance } from '../relative-tolerance.js';
import type { Outcome, Rule } from '../rule.js';
import type { Ruleset } from '../ruleset.js';

export const rule: Rule = {
  meta: {
    id: 'discharge-time',
    title: 'The link discharges in time',
    rationale:
      'Whoever opens the car after a shutdown counts on the voltage being gone within seconds, in every state the car can be left in: disconnect pulled, container taken out, or neither.',
    parameters: [
      'dischargeVoltage',
      'dischargeVoltageStrict',
      'dischargeTime',
      'dischargeTimeStrict',
      'dischargeClock',
      'separationStates',
    ],
    messages: {
      met: 'At worst ({state}) {voltage} falls {limitVoltage} after {worst}; {limit} is allowed.',
      violated: 'In the state {state} {voltage} takes {worst} at worst to fall {limitVoltage}; {limit} is allowed.',
      never: 'In the state {state} {voltage} never falls {limitVoltage} at worst; {limit} is allowed.',
      noPath:
        'In the state {state} nothing discharges {voltage}: it never falls {limitVoltage}, and {limit} is allowed.',
      clock:
        'In the state {state} {voltage} takes {worst} at worst to fall {limitVoltage} by one reading of when the time starts and {other} by the other; {limit} is allowed, so the reading decides.',
      undetermined:
        'In the state {state} {voltage} falls {limitVoltage} in time with what is stated, but takes {worst} with what was assumed for {fields}; {limit} is allowed.',
      notComputable: 'How long {voltage} takes to fall in the state {state} cannot be computed without {fields}.',
      nothing: 'No capacitor stands on the car’s side of the isolation relays, so nothing has to be discharged.',
    },
    remedies: {
      reduceResistance:
        'Reduce {resistor} to a nominal value below {bound}; {preferred} leaves a margin of at least 20 %. Check its power rating afterwards.',
      addPath:
        'Connect a discharge resistor across the capacitors themselves, closed whenever the shutdown circuit is open; {preferred} discharges the link in time with a margin.',
      repair: 'Cure first what takes the discharge away: see the findings named as its cause.',
    },
    inspect:
      'With an official, read the voltage at the measuring points at 1 … 5 s after shutdown, in each separation state.',
  },
  check(facts, ruleset): Outcome {
    const judged = judgeDischarge(facts, ruleset);
    const [gravest] = judged;
    if (gravest === undefined) return { status: 'not-applicable', message: 'nothing' };
    const { status, missing } = gravest;
    const base = {
      status,
      evidence: evidenceOf(judged, ruleset),
      elements: [
        ...(gravest.voltage.kind === 'capacitor' ? [gravest.voltage.id] : []),
        ...dischargeResistorsIn(facts, gravest.voltage),
      ],
    };
    const values = valuesOf(facts, ruleset, gravest);
    if (status === 'met') return { ...base, message: 'met', values };
    if (status === 'undetermined') {
      const all = judged.flatMap((each) => (each.status === 'undetermined' ? each.missing : []));
      const message = gravest.clockDecides ? 'clock' : gravest.own.notComputable ? 'notComputable' : 'undetermined';
      return { ...base, message, values: { ...values, fields: fieldNames(facts.circuit, missing) }, missing: all };
    }
    const causedBy = causesOf(facts, judged, gravest);
    const cure = causedBy.length > 0 ? { remedy: 'repair' } : cureOf(facts, ruleset, gravest);
    const message =
      gravest.voltage.path.length === 0 ? 'noPath' : Number.isFinite(gravest.own.worst) ? 'violated' : 'never';
    return { ...base, message, ...cure, values: { ...values, ...('values' in cure ? cure.values : {}) }, causedBy };
  },
};

function valuesOf(facts: Facts, ruleset: Ruleset, { fall, voltage, own, other }: DischargeJudgement) {
  const { dischargeTime, dischargeVoltage } = ruleset.conditions;
  const texts = formatAgainst(own.worst, dischargeTime, 's');
  return {
    state: fall.state.id,
    voltage: placeOf(voltage),
    worst: texts.value,
    other: formatQuantity(other.worst, 's'),
    limit: `${ruleset.conditions.dischargeTimeStrict ? 'less than ' : 'at most '}${texts.limit}`,
    limitVoltage: `${ruleset.conditions.dischargeVoltageStrict ? 'below' : 'to'} ${formatQuantity(dischargeVoltage, 'V')}`,
  };
}

function placeOf({ kind, id, nodes }: FallVoltage): string {
  switch (kind) {
    case 'capacitor':
      return `the capacitor ${id}`;
    case 'link':
      return `the link (${nodes.join(', ')}), across its capacitors in series,`;
    case 'plug-pins':
      return `the plug (${nodes.join(', ')})`;
  }
}

function evidenceOf(judged: readonly DischargeJudgement[], ruleset: Ruleset) {
  const { dischargeVoltage, dischargeTime, dischargeClock } = ruleset.conditions;
  const [gravest] = judged;
  const decides = gravest && decisive(gravest);
  return {
    ...(decides === undefined
      ? {}
      : measuredAgainst({
          actual: decides.worst,
          limit: dischargeTime,
          side: 'below',
          unit: 's',
          search: decides.search,
        })),
    path: gravest?.voltage.path ?? [],
    dischargeVoltage,
    dischargeTime,
    dischargeClock,
    falls: judged.map(({ fall, voltage, status }) => ({
      state: fall.state.id,
      voltage: voltage.id,
      status,
      timeToLimit: figureEvidence(voltage.timeToLimit),
      timeToLimitOtherClock: figureEvidence(voltage.timeToLimitOtherClock),
      voltageAtLimit: figureEvidence(voltage.voltageAtLimit),
      path: voltage.path,
    })),
  };
}

/** The reading of the clock that the status comes of. */
function decisive({ status, clockDecides, own, other }: DischargeJudgement): Judgement {
  if (clockDecides) return own.worst >= other.worst ? own : other;
  return own.status === status ? own : other;
}

/** What takes the discharge away, where a finding of its own says so and the time would be kept otherwise. */
function causesOf(facts: Facts, judged: readonly DischargeJudgement[], { voltage, own }: DischargeJudgement): string[] {
  const contacts = elementsOf(facts.circuit, facts.topology.dischargeContacts, 'contact');
  const faulty = contacts.some((contact) => dischargeContactFault(contact) !== undefined);
  if (faulty && dischargeResistorsIn(facts, voltage).length === 0) return ['discharge-fail-safe'];
  // A relay that nothing releases keeps the accumulator on the link.
  const held = elementsOf(facts.circuit, facts.topology.isolationRelays, 'contact').some(
    ({ suppliedBy }) => suppliedBy === 'independent',
  );
  if (held && own.worst === Infinity) return ['precharge-supply'];
  const slowUnseparated = judged.some(
    ({ fall, status }) => fall.state.scenario === 'shutdown' && status === 'violated',
  );
  return !slowUnseparated && hasLostDischarge(facts, voltage) ? ['discharge-stays-with-car'] : [];
}

function cureOf(facts: Facts, ruleset: Ruleset, gravest: DischargeJudgement) {
  const [id] = dischargeResistorsIn(facts, gravest.voltage);
  const resistor = id === undefined ? undefined : elementById(facts.circuit, id);
  return resistor?.kind === 'resistor' && Number.isFinite(gravest.own.worst)
    ? smallerResistance(facts, ruleset, resistor)
    : { remedy: 'addPath', values: { preferred: addedResistance(facts, ruleset) } };
}

/** The bound is the limit's, so that a finding and the limits beside it say the same. */
function smallerResistance(facts: Facts, ruleset: Ruleset, { id, resistance }: Resistor) {
  const bound = largestResistance.compute(facts).find(({ element }) => element === id)?.nominal ?? 0;
  const tolerance = relativeTolerance(resistance, facts.conditions.assumedTolerance.resistor);
  // A fall only gets slower with its resistance, so the largest is the worst; the value advised is tried on the circuit.
  const preferred = largestPreferred(bound, (nominal) =>
    judgeDischarge(facts.vary(id, nominal * (1 + tolerance)), ruleset).every(({ status }) => status === 'met'),
  );
  return preferred === undefined
    ? { remedy: 'addPath', values: { preferred: addedResistance(facts, ruleset) } }
    : {
        remedy: 'reduceResistance',
        values: { resistor: id, bound: formatQuantity(bound, 'Ω'), preferred: formatQuantity(preferred, 'Ω') },
      };
}

/** R = t / (C·ln(U/u)) for all capacitors together, at their largest: what discharges them from the highest voltage in time. */
function addedResistance(facts: Facts, { conditions }: Ruleset): string {
  const capacitors = elementsOf(facts.circuit, facts.topology.vehicleCapacitors, 'capacitor');
  const farads = capacitors.reduce((sum, { capacitance }) => {
    const tolerance = relativeTolerance(capacitance, conditions.assumedTolerance.capacitor);
    return sum + capacitance.nominal * (1 + tolerance);
  }, 0);
  const decays = Math.log((facts.openCircuitVoltage.max ?? conditions.maximumVoltage) / conditions.dischargeVoltage);
  const time = Math.max(0, conditions.dischargeTime - conditions.maximumReleaseTime);
  const bound = time / (farads * decays * (1 + conditions.assumedTolerance.resistor));
  const preferred = largestPreferred(bound);
  return preferred === undefined ? 'a small enough one' : formatQuantity(preferred, 'Ω');
}
