import type { Facts } from '../../facts/facts.js';
import { fieldNames } from '../field-names.js';
import { formatQuantity } from '../format-quantity.js';
import { type DischargeJudgement, judgeDischarge } from '../judge-discharge.js';
import { mainFuses } from '../main-fuses.js';
import { measuredAgainst } from '../measured-against.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'discharge-unfused',
    title: 'No fuse stands in the discharge',
    rationale: 'A fuse that has blown leaves the capacitors charged, and nothing on the car shows it.',
    parameters: ['dischargeVoltage', 'dischargeTime'],
    messages: {
      met: 'With every fuse taken out the link still discharges in {worst} at worst ({state}).',
      violated:
        'The link discharges in time only through a fuse: with {fuses} blown {voltage} takes {worst} in the state {state}.',
      never: 'The link discharges only through a fuse: with {fuses} blown {voltage} never falls in the state {state}.',
      undetermined: 'Whether the link still discharges in time with the fuses blown cannot be told without {fields}.',
      noDischarge: 'The link does not discharge in time even with the fuses whole.',
      nothing: 'Nothing has to be discharged.',
    },
    remedies: {
      bridge:
        'Connect the discharge resistor on the capacitor’s side of the fuse, or give each side a resistor of its own.',
    },
    inspect: 'Trace the discharge resistor to the capacitors and look for fuses, fusible links on a board included.',
  },
  check(facts, ruleset): Outcome {
    const [whole] = judgeDischarge(facts, ruleset);
    if (whole === undefined) return { status: 'not-applicable', message: 'nothing' };
    if (whole.status === 'violated') {
      return { status: 'not-applicable', message: 'noDischarge', causedBy: ['discharge-time'] };
    }
    // Absent where no fuse carries any of it: then it is the fall as it is.
    const [blown = whole] = judgeDischarge(facts, ruleset, ({ worst, worstWithoutFuses }) => {
      const voltage = worstWithoutFuses ?? worst;
      return voltage === undefined ? [] : [voltage];
    });
    const sameTime = blown.own.worst === whole.own.worst && blown.own.stated === whole.own.stated;
    const fuses = otherFuses(facts);
    const evidence = {
      ...measuredAgainst({
        actual: blown.own.worst,
        // A fall that no fuse changes is held against itself: whether it is in time is another rule's.
        limit: sameTime && blown.status !== 'met' ? whole.own.worst : ruleset.conditions.dischargeTime,
        side: 'below',
        unit: 's',
        search: blown.own.search,
      }),
      path: blown.voltage.path,
      fuses,
      withFuses: timeOf(whole),
      withoutFuses: timeOf(blown),
    };
    const values = {
      fuses: fuses.join(', '),
      state: blown.fall.state.id,
      voltage: blown.voltage.id,
      worst: formatQuantity(blown.own.worst, 's'),
      fields: fieldNames(facts.circuit, blown.missing),
    };
    if (blown.status === 'met' || sameTime)
      return { status: 'met', message: 'met', values, evidence, elements: blown.voltage.path };
    const missing = blown.missing.length > 0 ? blown.missing : whole.missing;
    if (blown.status === 'undetermined' || whole.status === 'undetermined') {
      const named = { ...values, fields: fieldNames(facts.circuit, missing) };
      return { status: 'undetermined', message: 'undetermined', values: named, evidence, elements: fuses, missing };
    }
    const message = Number.isFinite(blown.own.worst) ? 'violated' : 'never';
    return { status: 'violated', message, values, evidence, elements: fuses, remedy: 'bridge' };
  },
};

/** The main fuses of the containers are on no way by which the link discharges. */
function otherFuses(facts: Facts): readonly string[] {
  const main = new Set(
    facts.topology.containers.flatMap((container) => mainFuses(facts, container)).map(({ id }) => id),
  );
  const all = facts.circuit.elements.filter(({ kind }) => kind === 'fuse').map(({ id }) => id);
  const others = all.filter((id) => !main.has(id));
  // Where nothing else is fused a discharge inside the container hangs behind its main fuse.
  return others.length > 0 ? others : all;
}

function timeOf({ own, fall }: DischargeJudgement) {
  return { state: fall.state.id, worst: Number.isFinite(own.worst) ? own.worst : null };
}
