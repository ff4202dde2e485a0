import { agreed } from '../../transient/agreed.js';
import type { Direction, Directions } from '../../transient/bounds.js';
import type { CompiledElement, Values } from '../../transient/compiled-circuit.js';
import { FallModel } from './fall-model.js';
import { corner } from './heat-bounds.js';

/**
 * Discharge contacts that may close after the isolation relays have opened: none in this state; the resistor's own alone, so that
 * nothing flows through it before; another's alone, across which what flows through it has to share from then on; or any others.
 */
type Waits = 'none' | 'its own' | 'another' | 'several';

/** What is proved of the heat that a resistor takes in a fall, and what that heat does not lie beyond. */
export class FallHeats extends FallModel {
  private readonly shares = new Map<CompiledElement, Directions | undefined>();

  /** Of the power in a resistor with the start voltage held. */
  protected powerDirection(element: CompiledElement): Directions {
    const power = this.oneState?.firstPower(element, this.setting.box);
    return (index) => {
      // How late a contact closes has no part in what is held on it.
      if (this.setting.releaseRole(index) !== undefined) return 0;
      if (this.setting.isVoltage(index)) return this.voltageDirection(index);
      return agreed(power?.(index), this.setting.startDirection(index));
    };
  }

  /**
   * Of the heat in a resistor. With one capacitor it is ½·C·U²·(s₁·(1 − d²) + s₂·d²), s₁ and s₂ its share of all losses before and
   * after a contact closes late, d what is left of the voltage by then, which rises with every resistance and capacitance.
   *
   * Before its own contact closes s₁ = 0. Another's closing takes from it, s₁ ≥ s₂: then what lowers the shares lowers all of it,
   * and what raises them (across it, or capacitance) raises its power at every instant. Signs are those of the closed contact:
   * they hold for every resistance of it, so in the limit for an open one, where they may be 0.
   */
  protected heatDirection(element: CompiledElement): Directions {
    const share = this.shareOf(element);
    const waits = this.waitsFor(element);
    return (index) => {
      const role = this.setting.releaseRole(index);
      if (role !== undefined) return this.laterDirection(role, waits);
      if (this.setting.isVoltage(index)) return this.voltageDirection(index);
      return agreed(this.takenDirection(index, element, share?.(index), waits), this.setting.startDirection(index));
    };
  }

  /** Of the heat from a voltage that is given, in anything but that and the contacts' times. */
  private takenDirection(index: number, element: CompiledElement, moved: Direction, waits: Waits): Direction {
    if (waits === 'none') return moved;
    if (waits === 'its own') return agreed(moved, this.beforeClosing(index));
    if (waits === 'several') return undefined;
    if (index === element.primary)
      return moved === -1 && this.stateBefore?.heat(element, this.setting.box)(index) === -1 ? -1 : undefined;
    return moved === 0 && this.beforeClosing(index) !== 0 ? undefined : moved;
  }

  /** Of a resistor's temperature: what moves its power one way at every instant of the fall moves the temperature with it. */
  protected hotterDirection(element: CompiledElement): Directions {
    const first = this.oneState?.firstCurrent(element);
    const lasts = this.oneState?.timeConstant();
    const waits = this.waitsFor(element);
    return (index) => {
      const role = this.setting.releaseRole(index);
      if (role !== undefined) return this.laterDirection(role, waits);
      if (this.setting.isVoltage(index)) return this.voltageDirection(index);
      if (index === element.primary || waits === 'several') return undefined;
      const course = agreed(agreed(first?.(index), lasts?.(index)), this.setting.startDirection(index));
      return waits === 'none' ? course : agreed(course, this.beforeClosing(index));
    };
  }

  /** Where bounds are known anyway: as the share goes. */
  protected likelyHeat(element: CompiledElement): Directions {
    const one = this.waitsFor(element) === 'several' ? undefined : this.shareOf(element);
    const likely = this.likelyOfSeveral(element) ?? one;
    return (index) => {
      const role = this.setting.releaseRole(index);
      return role === undefined ? likely?.(index) : role === 'discharges' ? -1 : 1;
    };
  }

  /** Of several capacitors: the more is stored, and the smaller the resistor, the more it takes. */
  protected likelyOfSeveral(element: CompiledElement): Directions | undefined {
    if (this.rough === undefined) return undefined;
    return (index) => {
      if (index === element.primary) return -1;
      return this.setting.compiled.parameters[index]?.field === 'capacitance' ? 1 : 0;
    };
  }

  /**
   * J that a resistor may take at most (least). With one capacitor ½·C·U²·s₂ and d² each at its own corner where its own contact
   * closes late, and between ½·C·U²·s₂ and ½·C·U²·s₁ where another's does; else at most all that the capacitors hold.
   */
  protected heatBound(element: CompiledElement, end: 'min' | 'max'): number | undefined {
    if (!this.undriven) return undefined;
    const waits = this.waitsFor(element);
    const heat = this.sharedHeat(element, end, waits);
    if (heat === undefined) return end === 'max' ? this.mostStored() : undefined;
    if (waits !== 'its own' || heat === 0) return heat;
    const { setting } = this;
    const left: Directions = (index) => {
      const role = setting.releaseRole(index);
      if (role !== undefined) return this.laterDirection(role, waits);
      return setting.isVoltage(index) ? 0 : this.beforeClosing(index);
    };
    const values = corner(setting.box, left, end);
    if (values === undefined) return end === 'max' ? heat : undefined;
    return (heat * this.run(values).energy(element.index)) / this.atOnce(values).energy(element.index);
  }

  /** Whether the resistor's power is never again what it is with every contact closed from the start. */
  protected peaksClosed(element: CompiledElement): boolean {
    const waits = this.waitsFor(element);
    return this.decays && (waits === 'none' || waits === 'its own');
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

  private waitsFor(element: CompiledElement): Waits {
    const [late, ...more] = this.lateContacts;
    if (late === undefined) return 'none';
    if (more.length > 0) return 'several';
    const carries = this.beforeClosing(element.primary);
    if (carries === 0) return 'its own';
    const closing = this.setting.compiled.byId.get(late);
    return carries === 1 && closing !== undefined && this.shareOf(element)?.(closing.primary) === 1
      ? 'another'
      : 'several';
  }

  /** The later its own contact closes after the isolation relays' opening the less is left for the resistor, and the later another's the more. */
  private laterDirection(role: 'isolates' | 'discharges', waits: Waits): Direction {
    if (waits === 'none') return 0;
    if (waits === 'several' || !this.undriven || this.oneState === undefined) return undefined;
    return (role === 'discharges') === (waits === 'another') ? 1 : -1;
  }

  /** J at most (least) with every contact closed from the start; at most, where another's closes late, with that one open throughout. */
  private sharedHeat(element: CompiledElement, end: 'min' | 'max', waits: Waits): number | undefined {
    const { setting } = this;
    if (waits === 'several') return undefined;
    const open = waits === 'another' && end === 'max';
    const state = open ? this.stateBefore : this.oneState;
    const share = open ? state?.heat(element, setting.box) : this.shareOf(element);
    // What it starts from may hang on its own resistance, in a way that is not told here.
    if (share === undefined || state === undefined || this.setting.startDirection(element.primary) !== 0)
      return undefined;
    const directions: Directions = (index) => {
      if (setting.releaseRole(index) !== undefined) return 0;
      if (setting.isVoltage(index)) return this.voltageDirection(index);
      return index === element.primary ? 0 : agreed(share(index), this.setting.startDirection(index));
    };
    const values = corner(setting.box, directions, end);
    if (values === undefined) return undefined;
    const own = setting.box.uncertain.find((parameter) => parameter.index === element.primary);
    const { low, high } = own ?? { low: values[element.primary] as number, high: values[element.primary] as number };
    const heats = [low, high, Math.min(high, Math.max(low, state.heatSummit(element, values)))].map((ohms) => {
      const at = values.slice();
      at[element.primary] = ohms;
      return (open ? this.neverClosed(at) : this.atOnce(at)).energy(element.index);
    });
    return end === 'max' ? Math.max(...heats) : Math.min(...heats);
  }

  /** ½·C·U² of all capacitors at their most. */
  private mostStored(): number {
    const { compiled, shares } = this.setting;
    const values = this.mostOf(() => 1);
    const volts = this.setting.startVoltage(values);
    return compiled.capacitors.reduce((sum, index) => {
      const { id, primary } = compiled.elements[index] as CompiledElement;
      return sum + 0.5 * (values[primary] as number) * (volts * shares.most(id, this.setting.box)) ** 2;
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
