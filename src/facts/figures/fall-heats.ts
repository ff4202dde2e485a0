import type { Direction } from '../../transient/bounds.js';
import type { CompiledElement, Values } from '../../transient/compiled-circuit.js';
import { FallModel } from './fall-model.js';
import type { Directions } from './fall-setting.js';
import { corner } from './heat-bounds.js';

/** What is proved of the heat that a resistor takes in a fall, and what that heat does not lie beyond. */
export class FallHeats extends FallModel {
  private readonly shares = new Map<CompiledElement, Directions | undefined>();

  /** Of the power in a resistor with the start voltage held. */
  protected powerDirection(element: CompiledElement): Directions {
    const power = this.oneState?.firstPower(element, this.setting.box);
    return (index) => {
      // How late a contact closes has no part in what is held on it.
      if (this.setting.releaseRole(index) !== undefined) return 0;
      return this.setting.isVoltage(index) ? this.voltageDirection(index) : power?.(index);
    };
  }

  /**
   * Of the heat in a resistor. With one capacitor it is that of a fall with every contact closed from the start, less what other
   * paths take until its own contact closes: ½·C·U²·s·d², s its share and d what of the voltage is left by then.
   */
  protected heatDirection(element: CompiledElement): Directions {
    const share = this.shareOf(element);
    const waits = this.waitsFor(element);
    return (index) => {
      if (this.setting.releaseRole(index) !== undefined) return this.laterDirection(index, waits);
      if (this.setting.isVoltage(index)) return this.voltageDirection(index);
      if (waits === 'none') return share?.(index);
      return waits === 'its own' ? both(share?.(index), this.beforeClosing(index)) : undefined;
    };
  }

  /** Of a resistor's temperature: what moves its power one way at every instant of the fall moves the temperature with it. */
  protected hotterDirection(element: CompiledElement): Directions {
    const first = this.oneState?.firstCurrent(element);
    const lasts = this.oneState?.timeConstant();
    const waits = this.waitsFor(element);
    return (index) => {
      if (this.setting.releaseRole(index) !== undefined) return this.laterDirection(index, waits);
      if (this.setting.isVoltage(index)) return this.voltageDirection(index);
      if (index === element.primary || waits === 'several') return undefined;
      const course = both(first?.(index), lasts?.(index));
      return waits === 'none' ? course : both(course, this.beforeClosing(index));
    };
  }

  /** Where bounds are known anyway: as the share goes. */
  protected likelyHeat(element: CompiledElement, index: number): Direction {
    const role = this.setting.releaseRole(index);
    if (role !== undefined) return role === 'discharges' ? -1 : 1;
    return this.rough === undefined ? this.shareOf(element)?.(index) : this.likelyOfSeveral(element, index);
  }

  /** Of several capacitors: the more is stored, and the smaller the resistor, the more it takes. */
  protected likelyOfSeveral(element: CompiledElement, index: number): Direction {
    if (this.rough === undefined) return undefined;
    if (index === element.primary) return -1;
    return this.setting.compiled.parameters[index]?.field === 'capacitance' ? 1 : 0;
  }

  /**
   * J that a resistor may take at most (least). With one capacitor U²·C·s and d² each at its own corner, its own resistance where it
   * takes the largest (smallest) share; else at most all that the capacitors hold.
   */
  protected heatBound(element: CompiledElement, end: 'min' | 'max'): number | undefined {
    if (!this.undriven) return undefined;
    const waits = this.waitsFor(element);
    const heat = waits === 'several' ? undefined : this.heatAtOnce(element, end);
    if (heat === undefined) return end === 'max' ? this.mostStored() : undefined;
    if (waits === 'none' || heat === 0) return heat;
    const { setting } = this;
    const left: Directions = (index) => {
      const role = setting.releaseRole(index);
      if (role !== undefined) return role === 'discharges' ? -1 : 1;
      return setting.isVoltage(index) ? 0 : this.beforeClosing(index);
    };
    const values = corner(setting.box, left, end);
    if (values === undefined) return end === 'max' ? heat : undefined;
    return (heat * this.run(values).energy(element.index)) / this.atOnce(values).energy(element.index);
  }

  /** W at most: a fall from one voltage puts no more than that across anything (maximum principle, capacitors on one common node). */
  protected mostPower(element: CompiledElement, end: 'min' | 'max'): number | undefined {
    const { setting } = this;
    if (end === 'min' || this.rough === undefined) return undefined;
    const values = this.mostOf((index) => (index === element.primary ? -1 : 1));
    return setting.startVoltage(values) ** 2 / (values[element.primary] as number);
  }

  // ---------------------------------------------------------------- inside

  /** Of what the resistor takes with every contact closed from the start. */
  private shareOf(element: CompiledElement): Directions | undefined {
    if (!this.shares.has(element))
      this.shares.set(element, this.undriven ? this.oneState?.heat(element, this.setting.box) : undefined);
    return this.shares.get(element);
  }

  /**
   * Discharge contacts that may close after the isolation relays have opened: none in this state, its own alone (until it closes
   * nothing flows through the resistor), or several.
   */
  private waitsFor(element: CompiledElement): 'none' | 'its own' | 'several' {
    const { releases } = this.setting;
    const { open, gone } = this.state;
    const late = releases.filter(
      ({ role, contact }) => role === 'discharges' && !open.includes(contact) && !gone.includes(contact),
    );
    if (late.length === 0) return 'none';
    return late.length === 1 && this.beforeClosing(element.primary) === 0 ? 'its own' : 'several';
  }

  /** The later its contact closes after the isolation relays' opening, the less is left for the resistor. */
  private laterDirection(index: number, waits: 'none' | 'its own' | 'several'): Direction {
    const role = this.setting.releaseRole(index);
    if (waits === 'none') return 0;
    if (waits === 'several' || !this.undriven || this.oneState === undefined) return undefined;
    return role === 'discharges' ? -1 : 1;
  }

  private heatAtOnce(element: CompiledElement, end: 'min' | 'max'): number | undefined {
    const { setting, oneState } = this;
    const share = this.shareOf(element);
    if (share === undefined || oneState === undefined) return undefined;
    const directions: Directions = (index) => {
      if (setting.releaseRole(index) !== undefined) return 0;
      if (setting.isVoltage(index)) return setting.voltageDirection(index);
      return index === element.primary ? 0 : share(index);
    };
    const values = corner(setting.box, directions, end);
    if (values === undefined) return undefined;
    const own = setting.box.uncertain.find((parameter) => parameter.index === element.primary);
    const { low, high } = own ?? { low: values[element.primary] as number, high: values[element.primary] as number };
    const heats = [low, high, Math.min(high, Math.max(low, oneState.heatSummit(element, values)))].map((ohms) => {
      const at = values.slice();
      at[element.primary] = ohms;
      return this.atOnce(at).energy(element.index);
    });
    return end === 'max' ? Math.max(...heats) : Math.min(...heats);
  }

  /** ½·C·U² of all capacitors at their most. */
  private mostStored(): number {
    const { compiled, share } = this.setting;
    const values = this.mostOf(() => 1);
    const volts = this.setting.startVoltage(values);
    return compiled.capacitors.reduce((sum, index) => {
      const { id, primary } = compiled.elements[index] as CompiledElement;
      return sum + 0.5 * (values[primary] as number) * (volts * (share.get(id) ?? 0)) ** 2;
    }, 0);
  }

  /** The corner at which the start voltage is highest, and the others where they are told. */
  private mostOf(directions: Directions): Values {
    const { setting } = this;
    const all = (index: number): Direction =>
      setting.isVoltage(index) ? setting.voltageDirection(index) : directions(index);
    return corner(setting.box, all, 'max') ?? setting.box.nominal;
  }
}

/** Of a product whose factors go these ways. */
function both(one: Direction, other: Direction): Direction {
  if (one === undefined || other === undefined) return undefined;
  if (one === 0 || one === other) return other;
  return other === 0 ? one : undefined;
}
