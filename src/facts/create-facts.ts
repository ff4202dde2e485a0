import type { ResolvedCircuit, Toleranced } from '../circuit/model.js';
import { accuracyOf } from '../transient/accuracy.js';
import { boundsOf } from '../transient/bounds.js';
import { compileCircuit } from '../transient/compiled-circuit.js';
import type { Conditions } from './conditions.js';
import type { Facts, SeparationState, VariedFacts } from './facts.js';
import { assumptionsOf } from './figures/assumptions.js';
import { chargedShares } from './figures/charged-shares.js';
import { coastingFalls } from './figures/coasting-falls.js';
import { FallFacts } from './figures/fall-facts.js';
import { FallSetting } from './figures/fall-setting.js';
import { figureOf, nameOf, noFigure } from './figures/figure-of.js';
import { lastClosure } from './figures/last-closure.js';
import { measuringPointStates } from './figures/measuring-point-states.js';
import { accumulatorChain, openCircuitVoltage } from './figures/open-circuit.js';
import { RiseFacts } from './figures/rise.js';
import { riseState } from './figures/rise-state.js';
import { senseStates } from './figures/sense-states.js';
import { circuitBox } from './figures/tolerance-of.js';
import { lazily } from './lazily.js';
import { defaultSequence } from './topology/default-sequence.js';
import { exits } from './topology/exits.js';
import { exposures } from './topology/exposures.js';
import { judgedSequence } from './topology/judged-sequence.js';
import { pathsPastDisconnect } from './topology/paths-past-disconnect.js';
import { separationStates } from './topology/separation-states.js';
import { topology } from './topology/topology.js';

/** All facts of a circuit under a ruleset's conditions. Nothing is computed before it is read, and nothing twice. */
export function createFacts(circuit: ResolvedCircuit, conditions: Conditions): Facts {
  const parts = lazily(() => topology(circuit, conditions));
  const sequence = lazily(() => judgedSequence(circuit, parts(), conditions));
  const state = lazily(() => riseState(circuit, parts(), sequence().steps));
  const compiled = lazily(() => compileCircuit(circuit));
  const chain = lazily(() => accumulatorChain(compiled(), parts()));
  const charged = lazily(() => {
    if (sequence().source === 'default') return [state()];
    const usual = defaultSequence(circuit, parts(), conditions, { release: false });
    return [state(), riseState(circuit, parts(), usual)];
  });
  const shares = lazily(() => chargedShares(compiled(), charged(), chain()));
  const states = lazily(() => separationStates(circuit, parts()));
  const rise = lazily(() => new RiseFacts(circuit, parts(), conditions, state()));
  const setting = lazily(() => new FallSetting(circuit, parts(), conditions, shares()));
  const falls = lazily(() => states().map((each) => new FallFacts(setting(), each)));
  const coasting = lazily(() => coastingFalls(falls()));
  const closure = lazily(() => lastClosure(circuit, parts(), conditions, sequence().steps, rise()));
  const voltage = lazily(() => {
    if (chain().length === 0) return noFigure('no-path');
    const box = circuitBox(compiled(), conditions);
    const names = compiled().parameters.map((parameter) => nameOf(parameter, 'accumulator'));
    const direction = (index: number): 1 | -1 | 0 => chain().find((each) => each.index === index)?.sign ?? 0;
    return figureOf(
      box,
      boundsOf(box, (values) => openCircuitVoltage(chain(), values), { direction }),
      names,
      direction,
    );
  });
  const ways = lazily(() => exits(circuit, parts(), conditions));
  const exposed = lazily(() => exposures(circuit, conditions));
  const past = lazily(() => pathsPastDisconnect(circuit, conditions));
  const sensed = lazily(() => senseStates(circuit, parts(), conditions, state(), states()));
  const points = lazily(() => measuringPointStates(circuit, parts(), conditions, shares(), states()));
  const assumptions = lazily(() => assumptionsOf(circuit, conditions));
  return {
    circuit,
    conditions,
    get topology() {
      return parts();
    },
    get sequence() {
      return sequence();
    },
    get openCircuitVoltage() {
      return voltage();
    },
    get rise() {
      return rise();
    },
    get falls() {
      return falls();
    },
    get coasting() {
      return coasting();
    },
    get lastClosure() {
      return closure();
    },
    get exits() {
      return ways();
    },
    get exposures() {
      return exposed();
    },
    get pathsPastDisconnect() {
      return past();
    },
    get senseStates() {
      return sensed();
    },
    get measuringPointStates() {
      return points();
    },
    get accuracy() {
      return Math.max(rise().accuracy, accuracyOf(setting().compiled));
    },
    get assumptions() {
      return assumptions();
    },
    vary: (id, value, only) => varied(rise, setting, states).vary(id, value, only),
    at: (shares) =>
      varied(
        lazily(() => rise().at(shares)),
        lazily(() => setting().at(shares)),
        states,
      ),
    withValue: (id, value) => createFacts(withValue(circuit, id, value), conditions),
  };
}

/** Facts of the same graph at other values. */
function varied(
  rise: () => RiseFacts,
  setting: () => FallSetting,
  states: () => readonly SeparationState[],
): VariedFacts {
  const falls = lazily(() => states().map((each) => new FallFacts(setting(), each)));
  return {
    get rise() {
      return rise();
    },
    get falls() {
      return falls();
    },
    vary: (id, value, only) =>
      varied(
        lazily(() => rise().vary(id, value, only)),
        lazily(() => setting().vary(id, value, only)),
        states,
      ),
  };
}

function withValue(
  circuit: ResolvedCircuit,
  id: string,
  { nominal, tolerance }: { readonly nominal: number; readonly tolerance: number },
): ResolvedCircuit {
  const range: Toleranced = {
    min: nominal * (1 - tolerance),
    nominal,
    max: nominal * (1 + tolerance),
    toleranceStated: true,
  };
  const elements = circuit.elements.map((element) => {
    if (element.id !== id) return element;
    switch (element.kind) {
      case 'resistor':
      case 'meter':
        return { ...element, resistance: range };
      case 'capacitor':
        return { ...element, capacitance: range };
      case 'load':
        return { ...element, [element.resistance ? 'resistance' : element.current ? 'current' : 'power']: range };
      default:
        return element;
    }
  });
  return { ...circuit, elements };
}
