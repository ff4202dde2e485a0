import type { Direction, Directions } from '../../transient/bounds.js';
import type { CompiledElement, Values } from '../../transient/compiled-circuit.js';
import type { Fall, FallVoltage } from '../facts.js';
import type { Figure, TimeFigure } from '../figure.js';
import { FallHeats } from './fall-heats.js';
import { SAME_VOLTAGE } from './fall-model.js';
import type { FallRun } from './fall-run.js';
import { noFigure } from './figure-of.js';
import { outerEnd } from './outer-end.js';
import { hottestPossible } from './temperature-bounds.js';
import { thermalOf, thermalPeak, withLastWhole } from './thermal-peak.js';
import { watchedPlaces } from './watched-places.js';
import { WatchedVoltage } from './watched-voltage.js';

/** One separation state, each figure computed when it is first read. */
export class FallFacts extends FallHeats implements Fall {
  private memo: {
    voltages?: readonly FallVoltage[];
    energy?: Map<string, Figure>;
    power?: Map<string, Figure>;
    unfused?: FallVoltage | null;
    start?: Figure;
  } = {};

  get required(): boolean {
    const { scenario } = this.state;
    return scenario === 'shutdown' || this.setting.conditions.separationStates.includes(scenario);
  }

  get startVoltage(): Figure {
    const direction = (index: number): Direction => this.setting.voltageDirection(index);
    this.memo.start ??= this.figure((values) => this.setting.startVoltage(values), { direction });
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
    if (this.absent.length > 0) return this.worst;
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
    this.memo.energy ??= this.perResistor((element) =>
      this.figure((values) => this.mostOver(values, (run) => run.energy(element.index)), {
        direction: this.heatDirection(element),
        likely: this.likelyHeat(element),
        inner: (index) => index === element.primary,
        outer: (end) => this.heatBound(element, end),
      }),
    );
    return this.memo.energy;
  }

  get continuousPower(): ReadonlyMap<string, Figure> {
    this.memo.power ??= this.perResistor((element) =>
      this.figure((values) => this.mostAtOnce(values, (run) => run.startPower(element.index)), {
        direction: this.powerDirection(element),
        likely: this.likelyOfSeveral(element),
        inner: (index) => index === element.primary,
        outer: (end) => this.mostPower(element, end),
      }),
    );
    return this.memo.power;
  }

  repeatsPeakTemperature(id: string, count: number, interval: number): Figure {
    const element = this.setting.compiled.byId.get(id);
    if (element?.source.kind !== 'resistor' || !this.continuousPower.has(id)) return noFigure('no-path');
    const thermal = thermalOf(element.source, this.setting.circuit.ambientMax);
    if ('missing' in thermal) return noFigure('not-stated', thermal.missing);
    const hottest = (values: Values): number =>
      this.mostOver(values, (run) => {
        const pulses = withLastWhole(run.current(element.index), count, interval);
        return thermalPeak(thermal, values[element.primary] as number, pulses);
      });
    return this.figure(hottest, {
      direction: this.hotterDirection(element),
      likely: this.likelyHotter(element),
      outer: (end) => {
        if (end === 'min') return undefined;
        const energy = this.mostOfAll(this.resistorEnergy.get(id));
        const power = this.peaksClosed(element) ? this.mostOfAll(this.continuousPower.get(id)) : Infinity;
        const most = hottestPossible(thermal, { energy, power, steady: 0 }, { count, interval });
        return most === Infinity ? undefined : most;
      },
    });
  }

  private mostOfAll(figure: Figure | undefined): number {
    return (figure && outerEnd(figure, 'max')) ?? Infinity;
  }

  /** As the heat of one fall goes, its own resistance apart: that also makes the fall longer. */
  private likelyHotter(element: CompiledElement): Directions {
    const { box, names } = this.setting;
    const { min, max } = this.resistorEnergy.get(element.id)?.at ?? {};
    return (index) => {
      const name = names[index]?.name ?? '';
      if (index === element.primary || box.only !== undefined) return undefined;
      return Math.sign((max?.[name] ?? 0) - (min?.[name] ?? 0)) as Direction;
    };
  }

  voltageAfter([a, b]: readonly [string, string], seconds: number): Figure {
    const { setting } = this;
    const place = { a: setting.compiled.nodes.get(a) ?? -1, b: setting.compiled.nodes.get(b) ?? -1 };
    // Until the relays have opened the voltage is what it starts from.
    const volts = (values: Values): number =>
      this.mostOver(values, (run) => run.voltageAt(place, Math.max(0, seconds - setting.isolationDelay(values))));
    const direction = (index: number): Direction => this.timeDirection(index, true);
    const near = this.isNearCapacitor(place);
    return this.figure(volts, {
      direction: near && this.isCapacitor(place) ? direction : () => undefined,
      likely: near ? (index) => direction(index) ?? (this.nearlyOne ? 1 : undefined) : undefined,
    });
  }

  /** Whether two nodes show a capacitor's own voltage but for what cables and the like take off it. */
  private isNearCapacitor(place: { readonly a: number; readonly b: number }): boolean {
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
    // What stands at nothing needs no watching, nor what a capacitor shows as well.
    const isShown = (place: { readonly a: number; readonly b: number }): boolean =>
      run.voltageAt(place, 0) <= SAME_VOLTAGE * this.setting.startVoltage(this.setting.box.nominal) ||
      this.isNearCapacitor(place);
    return watchedPlaces(this.setting, this.state, run, isShown).map((place) => {
      const alone = place.kind === 'capacitor' ? this.chargedAlone(place.id) : run;
      return new WatchedVoltage(this, place, pathOf(alone));
    });
  }

  /** Of each discharge resistor that is in this fall, by id. */
  private perResistor(figure: (element: CompiledElement) => Figure): Map<string, Figure> {
    const { compiled, topology } = this.setting;
    const found = new Map<string, Figure>();
    for (const id of topology.dischargeResistors) {
      const element = compiled.byId.get(id);
      if (element !== undefined && !this.state.gone.includes(id)) found.set(id, figure(element));
    }
    return found;
  }
}

function slower(a: TimeFigure, b: TimeFigure): boolean {
  const order = (figure: TimeFigure): number => (figure.reached === 'always' ? (figure.max ?? 0) : Infinity);
  return order(a) > order(b);
}
