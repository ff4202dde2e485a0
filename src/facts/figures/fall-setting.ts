import type { ResolvedCircuit } from '../../circuit/model.js';
import type { Direction } from '../../transient/bounds.js';
import type { Box } from '../../transient/box.js';
import { type CompiledCircuit, compileCircuit, type Values } from '../../transient/compiled-circuit.js';
import type { Conditions } from '../conditions.js';
import type { PartRange, SeparationState, Topology } from '../facts.js';
import type { ChargedShares } from './charged-shares.js';
import { type NamedParameter, nameOf } from './figure-of.js';
import { fixed } from './fixed.js';
import { placed } from './placed.js';
import { accumulatorChain, openCircuitVoltage } from './open-circuit.js';
import { type ReleaseParameter, releaseParameters } from './release-times.js';
import { circuitBox } from './tolerance-of.js';

/** What all falls of a circuit share. */
export class FallSetting {
  readonly compiled: CompiledCircuit;
  readonly box: Box;
  private readonly proofs = new Map<string, { readonly value: unknown }>();
  readonly names: readonly NamedParameter[];
  readonly releases: readonly ReleaseParameter[];
  readonly chain: readonly { readonly index: number; readonly sign: 1 | -1 }[];
  private readonly count: number;

  constructor(
    readonly circuit: ResolvedCircuit,
    readonly topology: Topology,
    readonly conditions: Conditions,
    readonly shares: ChargedShares,
    private readonly varied?: { readonly parent: FallSetting; readonly box: Box },
  ) {
    if (varied !== undefined) {
      const { parent } = varied;
      this.compiled = parent.compiled;
      this.releases = parent.releases;
      this.names = parent.names;
      this.chain = parent.chain;
      this.count = parent.count;
      this.box = varied.box;
      return;
    }
    this.compiled = compileCircuit(circuit);
    this.releases = releaseParameters(circuit, topology, conditions);
    this.count = this.compiled.parameters.length;
    const plain = circuitBox(this.compiled, conditions);
    this.box = {
      nominal: [...plain.nominal, ...this.releases.map(({ nominal }) => nominal)],
      uncertain: [
        ...plain.uncertain,
        ...this.releases.flatMap(({ uncertain }, k) =>
          uncertain === undefined ? [] : [{ ...uncertain, index: this.count + k }],
        ),
      ],
    };
    this.names = [
      ...this.compiled.parameters.map((parameter) =>
        nameOf(parameter, this.compiled.byId.get(parameter.element)?.kind ?? ''),
      ),
      ...this.releases.map(({ contact, pointer }) => ({ name: `${contact}.releaseTime`, pointer })),
    ];
    this.chain = accumulatorChain(this.compiled, topology);
  }

  /** The same setting with one part at exactly the value, or in the range, figures at one end only where that is named. */
  vary(element: string, value: number | PartRange, only?: 'min' | 'max'): FallSetting {
    return this.within(fixed(this.compiled, this.box, element, value, only));
  }

  /** The same setting at one point of its ranges. */
  at(shares: Readonly<Record<string, number>>): FallSetting {
    return this.within(placed(this.box, this.names, shares));
  }

  private within(box: Box): FallSetting {
    return new FallSetting(this.circuit, this.topology, this.conditions, this.shares, { parent: this, box });
  }

  /** What is proved of a state, kept for the whole family of varied settings: it holds for all positive values. */
  proof<T>(key: string, make: () => T): T {
    if (this.varied !== undefined) return this.varied.parent.proof(key, make);
    const known = this.proofs.get(key) ?? { value: make() };
    this.proofs.set(key, known);
    return known.value as T;
  }

  /** Of the share of the voltage that each capacitor starts from; kept for the whole family, as what is proved is. */
  startDirection(index: number): Direction {
    return this.varied === undefined
      ? this.shares.direction(index, this.box)
      : this.varied.parent.startDirection(index);
  }

  /** V that stands on the link at the instant of release. */
  startVoltage(values: Values): number {
    return openCircuitVoltage(this.chain, values);
  }

  /** s from the opening of the shutdown circuit until the last isolation relay has opened. */
  isolationDelay(values: Values): number {
    return this.releases.reduce(
      (latest, { role }, k) => (role === 'isolates' ? Math.max(latest, values[this.count + k] as number) : latest),
      0,
    );
  }

  /** s after the isolation relays' opening at which each discharge contact closes, where later. */
  closesLate(values: Values, state: SeparationState): Map<string, number> {
    const isolated = this.isolationDelay(values);
    const late = new Map<string, number>();
    this.releases.forEach(({ role, contact }, k) => {
      const delay = (values[this.count + k] as number) - isolated;
      if (role === 'discharges' && delay > 0 && !state.open.includes(contact) && !state.gone.includes(contact))
        late.set(contact, delay);
    });
    return late;
  }

  releaseRole(index: number): ReleaseParameter['role'] | undefined {
    return index < this.count ? undefined : this.releases[index - this.count]?.role;
  }

  isVoltage(index: number): boolean {
    return this.compiled.parameters[index]?.field === 'voltage';
  }

  /** Of all that is in proportion to the start voltage, the sum of the chain's voltages. */
  voltageDirection(index: number): Direction {
    return this.chain.find((each) => each.index === index)?.sign ?? 0;
  }
}
