import { hasLostDischarge } from '../discharge-resistors-in.js';
import { judgeDischarge } from '../judge-discharge.js';
import { listOutcome } from '../list-outcome.js';
import type { Outcome, Rule } from '../rule.js';

export const rule: Rule = {
  meta: {
    id: 'discharge-stays-with-car',
    title: 'The discharge stays connected when the car is taken apart',
    rationale:
      'If the discharge resistor sits inside the container or beyond the disconnect, pulling either takes the discharge away and leaves the capacitors charged: the very moment at which hands go in.',
    parameters: ['separationStates'],
    messages: {
      met: 'In every state that the ruleset names the capacitors keep a discharge.',
      violated: 'The discharge is lost when the car is separated: {problems}.',
      undetermined:
        'A capacitor loses its discharge resistor when separated; whether what is left discharges it in time cannot be told without {fields}.',
      none: 'There is no discharge to lose.',
    },
    remedies: {
      move: 'Connect the discharge resistor to the capacitor’s own terminals, on the car’s side of every plug, disconnect and isolation relay.',
    },
    inspect:
      'Pull the disconnect and take the container out: an ohmmeter at the proven dead link must still read the discharge resistor.',
  },
  check(facts, ruleset): Outcome {
    const { circuit, topology } = facts;
    const shutdown = facts.falls.find(({ state }) => state.scenario === 'shutdown');
    const discharges = shutdown?.voltages.some(({ path }) =>
      path.some((id) => topology.dischargeResistors.includes(id)),
    );
    if (topology.dischargeResistors.length === 0 || discharges === false) {
      return { status: 'not-applicable', message: 'none', causedBy: ['discharge-time', 'discharge-fail-safe'] };
    }
    const lost = judgeDischarge(facts, ruleset).filter(
      ({ fall, voltage, status }) =>
        fall.state.scenario !== 'shutdown' && status !== 'met' && hasLostDischarge(facts, voltage),
    );
    const wrong = lost
      .filter(({ status }) => status === 'violated')
      .map(({ fall, voltage }) => ({ elements: [voltage.id], text: `${voltage.id} in the state ${fall.state.id}` }));
    const missing = lost.filter(({ status }) => status === 'undetermined').flatMap((each) => each.missing);
    const evidence = {
      path: shutdown?.worst?.path ?? [],
      paths: facts.falls
        .filter(({ required }) => required)
        .flatMap(({ state, voltages }) => voltages.map(({ id, path }) => ({ state: state.id, voltage: id, path }))),
    };
    return listOutcome(circuit, { wrong, missing, elements: topology.dischargeResistors, evidence, remedy: 'move' });
  },
};
