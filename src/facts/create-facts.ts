import type { ResolvedCircuit, Toleranced } from '../circuit/model.js';
import { accuracyOf } from '../transient/accuracy.js';
import { boundsOf } from '../transient/bounds.js';
import { compileCircuit, nominalValues } from '../transient/compiled-circuit.js';
import type { Conditions } from './conditions.js';
import type { Facts, PartRange, SeparationState, VariedFacts } from './facts.js';
import type { Figure } from './figure.js';
import { assumptionsOf } from './figures/assumptions.js';
import { ChargedShares } from './figures/charged-shares.js';
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
  return new CircuitFacts(circuit, conditions);
}

class CircuitFacts implements Facts {
  constructor(
    readonly circuit: ResolvedCircuit,
    readonly conditions: Conditions,
  ) {}

  private readonly ofTopology = lazily(() => topology(this.circuit, this.conditions));
  private readonly ofSequence = lazily(() => judgedSequence(this.circuit, this.topology, this.conditions));
  private readonly state = lazily(() => riseState(this.circuit, this.topology, this.sequence.steps));
  private readonly compiled = lazily(() => compileCircuit(this.circuit));
  private readonly chain = lazily(() => accumulatorChain(this.compiled(), this.topology));
  private readonly charged = lazily(() => {
    if (this.sequence.source === 'default') return [this.state()];
    const usual = defaultSequence(this.circuit, this.topology, this.conditions, { release: false });
    return [this.state(), riseState(this.circuit, this.topology, usual)];
  });
  private readonly shares = lazily(() => new ChargedShares(this.compiled(), this.charged(), this.chain()));
  private readonly states = lazily(() => separationStates(this.circuit, this.topology));
  private readonly setting = lazily(() => new FallSetting(this.circuit, this.topology, this.conditions, this.shares()));
  private readonly figures = new ValuedFacts(
    lazily(() => new RiseFacts(this.circuit, this.topology, this.conditions, this.state())),
    this.setting,
    this.states,
  );
  private readonly ofCoasting = lazily(() => coastingFalls(this.figures.falls));
  private readonly closure = lazily(() =>
    lastClosure(this.circuit, this.topology, this.conditions, this.sequence.steps, this.figures.rise),
  );
  private readonly voltage = lazily(() => this.boundedVoltage());
  private readonly ofExits = lazily(() => exits(this.circuit, this.topology, this.conditions));
  private readonly ofExposures = lazily(() => exposures(this.circuit, this.conditions));
  private readonly ofPathsPast = lazily(() => pathsPastDisconnect(this.circuit, this.conditions));
  private readonly sensed = lazily(() =>
    senseStates(this.circuit, this.topology, this.conditions, this.state(), this.states()),
  );
  private readonly points = lazily(() =>
    measuringPointStates(
      this.circuit,
      this.topology,
      this.conditions,
      this.shares().at(nominalValues(this.compiled())),
      this.states(),
    ),
  );
  private readonly ofAssumptions = lazily(() => assumptionsOf(this.circuit, this.conditions));

  get topology(): Facts['topology'] {
    return this.ofTopology();
  }

  get sequence(): Facts['sequence'] {
    return this.ofSequence();
  }

  get openCircuitVoltage(): Facts['openCircuitVoltage'] {
    return this.voltage();
  }

  get rise(): Facts['rise'] {
    return this.figures.rise;
  }

  get falls(): Facts['falls'] {
    return this.figures.falls;
  }

  get coasting(): Facts['coasting'] {
    return this.ofCoasting();
  }

  get lastClosure(): Facts['lastClosure'] {
    return this.closure();
  }

  get exits(): Facts['exits'] {
    return this.ofExits();
  }

  get exposures(): Facts['exposures'] {
    return this.ofExposures();
  }

  get pathsPastDisconnect(): Facts['pathsPastDisconnect'] {
    return this.ofPathsPast();
  }

  get senseStates(): Facts['senseStates'] {
    return this.sensed();
  }

  get measuringPointStates(): Facts['measuringPointStates'] {
    return this.points();
  }

  get accuracy(): number {
    return Math.max(this.figures.rise.accuracy, accuracyOf(this.setting().compiled));
  }

  get statesSolved(): number {
    return this.figures.rise.statesSolved;
  }

  get assumptions(): Facts['assumptions'] {
    return this.ofAssumptions();
  }

  vary(id: string, value: number | PartRange, only?: 'min' | 'max'): VariedFacts {
    return this.figures.vary(id, value, only);
  }

  at(shares: Readonly<Record<string, number>>): VariedFacts {
    return new ValuedFacts(
      lazily(() => this.figures.rise.at(shares)),
      lazily(() => this.setting().at(shares)),
      this.states,
    );
  }

  withValue(id: string, value: { readonly nominal: number; readonly tolerance: number }): Facts {
    return createFacts(withValue(this.circuit, id, value), this.conditions);
  }

  private boundedVoltage(): Figure {
    const compiled = this.compiled();
    const chain = this.chain();
    if (chain.length === 0) return noFigure('no-path');
    const box = circuitBox(compiled, this.conditions);
    const names = compiled.parameters.map((parameter) => nameOf(parameter, 'accumulator'));
    const direction = (index: number): 1 | -1 | 0 => chain.find((each) => each.index === index)?.sign ?? 0;
    const bounds = boundsOf(box, (values) => openCircuitVoltage(chain, values), { direction });
    return figureOf(box, bounds, names, { direction });
  }
}

/** What depends on the values of a circuit whose graph is known. */
class ValuedFacts implements VariedFacts {
  constructor(
    private readonly ofRise: () => RiseFacts,
    private readonly setting: () => FallSetting,
    private readonly states: () => readonly SeparationState[],
  ) {}

  private readonly ofFalls = lazily(() => this.states().map((each) => new FallFacts(this.setting(), each)));

  get rise(): RiseFacts {
    return this.ofRise();
  }

  get falls(): readonly FallFacts[] {
    return this.ofFalls();
  }

  vary(id: string, value: number | PartRange, only?: 'min' | 'max'): ValuedFacts {
    return new ValuedFacts(
      lazily(() => this.rise.vary(id, value, only)),
      lazily(() => this.setting().vary(id, value, only)),
      this.states,
    );
  }
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
