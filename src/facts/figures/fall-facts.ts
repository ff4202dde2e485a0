import type { Direction } from '../../transient/bounds.js';
import { boundsOf } from '../../transient/bounds.js';
import { type CompiledCircuit, Mode, type Modes, type Values } from '../../transient/compiled-circuit.js';
import { fallDirections } from '../../transient/fall-directions.js';
import { OneState } from '../../transient/one-state.js';
import type { Fall, FallVoltage, SeparationState } from '../facts.js';
import type { Figure, TimeFigure } from '../figure.js';
import { FallRun } from './fall-run.js';
import type { Directions, FallSetting } from './fall-setting.js';
import { figureOf } from './figure-of.js';
import { watchedPlaces } from './watched-places.js';
import { WatchedVoltage } from './watched-voltage.js';

/** Ratio by which cables and series resistances let a voltage differ from the capacitor's that it is. */
const SAME_VOLTAGE = 1e-3;

/** One separation state, each figure computed when it is first read. */
export class FallFacts implements Fall {
  readonly required: boolean;
  private readonly runs = new Map<string, FallRun>();
  private readonly unfused: boolean;
  private known: Directions | undefined;
  private memo: {
    voltages?: readonly FallVoltage[];
    energy?: Map<string, Figure>;
    power?: Map<string, Figure>;
    unfused?: FallVoltage | null;
    start?: Figure;
  } = {};

  constructor(
    readonly setting: FallSetting,
    readonly state: SeparationState,
    private readonly absent: readonly string[] = [],
  ) {
    this.required = setting.conditions.separationStates.includes(state.scenario) || state.scenario === 'shutdown';
    this.unfused = absent.length > 0;
  }

  get startVoltage(): Figure {
    const direction = (index: number): Direction => (this.setting.isVoltage(index) ? 1 : 0);
    this.memo.start ??= this.figure((values) => this.setting.startVoltage(values), direction);
    return this.memo.start;
  }

  get voltages(): readonly FallVoltage[] {
    this.memo.voltages ??= this.watched();
    return this.memo.voltages;
  }

  get worst(): FallVoltage | undefined {
    return this.voltages.reduce<FallVoltage | undefined>((worst, each) => {
      if (worst === undefined) return each;
      return slower(each.timeToLimit, worst.timeToLimit) ? each : worst;
    }, undefined);
  }

  get worstWithoutFuses(): FallVoltage | undefined {
    if (this.unfused) return this.worst;
    if (this.memo.unfused === undefined) {
      const fuses = this.setting.compiled.elements.filter((element) => element.kind === 'fuse');
      const nominal = this.run(this.setting.box.nominal);
      // A fuse that carries nothing of the fall may as well be there.
      const idle = fuses.every(({ index }) => !nominal.carries(index));
      this.memo.unfused =
        (idle
          ? this.worst
          : new FallFacts(
              this.setting,
              this.state,
              fuses.map(({ id }) => id),
            ).worst) ?? null;
    }
    return this.memo.unfused ?? undefined;
  }

  get resistorEnergy(): ReadonlyMap<string, Figure> {
    this.memo.energy ??= this.perResistor((run, index) => run.energy(index), false);
    return this.memo.energy;
  }

  get continuousPower(): ReadonlyMap<string, Figure> {
    this.memo.power ??= this.perResistor((run, index) => run.startPower(index), true);
    return this.memo.power;
  }

  voltageAfter([a, b]: readonly [string, string], seconds: number): Figure {
    const { setting } = this;
    const place = { a: setting.compiled.nodes.get(a) ?? -1, b: setting.compiled.nodes.get(b) ?? -1 };
    // Until the relays have opened the voltage is what it starts from.
    const volts = (values: Values): number =>
      this.run(values).voltageAt(place, Math.max(0, seconds - setting.isolationDelay(values)));
    const proved = this.isCapacitors(place);
    return this.figure(volts, (index) => (proved ? this.timeDirection(index, true) : undefined));
  }

  /** Whether two nodes show a capacitor's own voltage, so that they share what is proved of it. */
  private isCapacitors(place: { readonly a: number; readonly b: number }): boolean {
    const run = this.run(this.setting.box.nominal);
    const start = run.voltageAt(place, 0);
    return this.setting.compiled.capacitors.some((_, capacitor) =>
      [0, 1, 5].every(
        (time) => Math.abs(run.voltageAt(place, time) - run.voltageAt({ capacitor }, time)) <= SAME_VOLTAGE * start,
      ),
    );
  }

  private watched(): FallVoltage[] {
    const run = this.run(this.setting.box.nominal);
    const pathOf = (alone: FallRun): string[] =>
      this.setting.compiled.elements
        .filter(({ kind, index }) => (kind === 'resistor' || kind === 'meter') && alone.carriesEver(index))
        .map(({ id }) => id);
    return watchedPlaces(this.setting, this.state, run).map((place) => {
      const alone = place.kind === 'capacitor' ? this.chargedAlone(place.id) : run;
      return new WatchedVoltage(this, place, pathOf(alone));
    });
  }

  /** The fall at nominal values with a single capacitor charged: what discharges that one, and no other. */
  private chargedAlone(capacitor: string): FallRun {
    const { compiled, box, share } = this.setting;
    const values = box.nominal;
    return new FallRun(
      compiled,
      values,
      this.state,
      this.setting.startVoltage(values),
      new Map([...share].map(([id, ratio]) => [id, id === capacitor ? ratio : 0])),
      this.setting.closesLate(values, this.state),
      this.absent,
    );
  }

  /** Of a time counted from the opening of the shutdown circuit (`clocked`) or of the isolation relays. */
  timeDirection(index: number, clocked: boolean): Direction {
    const role = this.setting.releaseRole(index);
    if (role === 'discharges') return 1;
    // Later isolation delays all that is counted from shutdown; counted from itself it only shortens the wait for the discharge contact.
    if (role === 'isolates') return clocked ? 1 : -1;
    if (this.setting.isVoltage(index)) return this.setting.chain.some((each) => each.index === index) ? 1 : 0;
    return this.direction(index);
  }

  private direction(index: number): Direction {
    this.known ??= this.setting.directions(`${this.state.id} ${this.absent.join()}`, () => this.findDirections());
    return this.known(index);
  }

  private findDirections(): Directions {
    const { compiled, box, topology } = this.setting;
    const settled = fallDirections(compiled, box, fallModes(compiled, this.state, this.absent));
    // Also while a discharge contact is still on its way, so also with it open.
    const open = [...this.state.open, ...topology.dischargeContacts];
    const before = fallDirections(compiled, box, fallModes(compiled, { ...this.state, open }, this.absent));
    return (parameter) => {
      const first = settled(parameter);
      const second = before(parameter);
      return first === undefined || second === undefined ? undefined : first !== 0 ? first : second;
    };
  }

  private perResistor(read: (run: FallRun, index: number) => number, held: boolean): Map<string, Figure> {
    const { compiled, topology } = this.setting;
    const found = new Map<string, Figure>();
    for (const id of topology.dischargeResistors) {
      const element = compiled.byId.get(id);
      if (element === undefined || this.state.gone.includes(id)) continue;
      const power = this.oneState?.firstCurrent(element, 'power');
      const shown = this.oneState?.timeConstant();
      const direction = (index: number): Direction => {
        // How late the discharge contact closes moves the heat by what other paths take in the meantime.
        if (this.setting.releaseRole(index) !== undefined) return held ? 0 : undefined;
        if (this.setting.isVoltage(index)) return this.setting.chain.length === 1 ? 1 : undefined;
        if (held) return power?.(index);
        return shown?.(index) === 0 ? 0 : undefined;
      };
      found.set(
        id,
        this.figure((values) => read(this.run(values), element.index), direction),
      );
    }
    return found;
  }

  private get oneState(): OneState | undefined {
    const { compiled, box } = this.setting;
    return this.setting.proof(`${this.state.id} ${this.absent.join()}`, () =>
      OneState.of(compiled, box, fallModes(compiled, this.state, this.absent), 'fall', []),
    );
  }

  /** A figure over the setting's ranges. */
  figure(evaluate: (values: Values) => number, direction: (index: number) => Direction): Figure {
    return figureOf(
      this.setting.box,
      boundsOf(this.setting.box, evaluate, { direction }),
      this.setting.names,
      direction,
    );
  }

  /** The fall at one set of values. */
  run(values: Values): FallRun {
    const key = values.join();
    const known = this.runs.get(key);
    if (known !== undefined) return known;
    // A copy: the search goes on with the same array, and a run reads its values later too.
    const run = new FallRun(
      this.setting.compiled,
      Float64Array.from(values),
      this.state,
      this.setting.startVoltage(values),
      this.setting.share,
      this.setting.closesLate(values, this.state),
      this.absent,
    );
    this.runs.set(key, run);
    return run;
  }
}

function slower(a: TimeFigure, b: TimeFigure): boolean {
  const order = (figure: TimeFigure): number => (figure.reached === 'always' ? (figure.max ?? 0) : Infinity);
  return order(a) > order(b);
}

function fallModes(compiled: CompiledCircuit, state: SeparationState, absent: readonly string[]): Modes {
  const open = new Set(state.open);
  const gone = new Set([...state.gone, ...absent]);
  return Uint8Array.from(compiled.elements, ({ id, source }) => {
    if (gone.has(id)) return Mode.absent;
    if (source.kind === 'load' || source.kind === 'machine' || open.has(id)) return Mode.open;
    return Mode.closed;
  });
}
