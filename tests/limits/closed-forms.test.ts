import { describe, expect, it } from 'vitest';
import { limits, type Scalars } from '../../src/limits/index.js';

function compute(name: string, scalars: Scalars): number | null {
  const limit = limits.find(({ meta }) => meta.name === name);
  if (limit === undefined) throw new Error(`no limit ${name}`);
  return limit.fromScalars.compute(scalars);
}

/** As a cell gets it: 9 significant digits. */
function nine(value: number | null): number {
  return Number((value ?? Number.NaN).toPrecision(9));
}

describe('limits from scalars', () => {
  // Common practice, no source: the divider. The first is the number of the contract’s example call.
  it.each<[string, Scalars, number]>([
    ['precharge-resistance-max-loads', { loadResistance: [47_000], threshold: 0.95 }, 2473.68421],
    ['precharge-resistance-max-loads', { loadResistance: [47_000], threshold: 0.9 }, 5222.22222],
    ['precharge-resistance-max-loads', { loadResistance: [94_000, 94_000], threshold: 0.95 }, 2473.68421],
    ['precharge-resistance-max-loads', { loadResistance: [47_000], threshold: 0.95, tolerance: 0.05 }, 2355.8897243],
    ['precharge-resistance-max-setting', { loadResistance: [47_000], threshold: 0.96 }, 47_000 / 24],
    // R_L > 19 R for 95 %, > 9 R for 90 %.
    ['precharge-load-resistance-min', { prechargeResistance: 1000, threshold: 0.95 }, 19_000],
    ['precharge-load-resistance-min', { prechargeResistance: 1000, threshold: 0.9 }, 9000],
    ['constant-power-load-max', { voltage: 600, prechargeResistance: 1000, threshold: 0.95 }, 17.1],
    // Maximum power transfer: U²/(4·R) at half the voltage.
    ['constant-power-load-max', { voltage: 600, prechargeResistance: 1000, threshold: 0.4 }, 90],
    ['precharge-threshold-setting-min', { threshold: 0.95, tolerance: 0.02 }, 0.97],
    // 600 V, 500 µF, 1 kΩ: t90 1.1513 s, t95 1.4979 s, 360 W and 0.6 A at the start.
    ['precharge-power-rating-min', { voltage: 600, prechargeResistance: 1000 }, 360],
    ['precharge-resistance-min-current', { voltage: 600, current: 0.6 }, 1000],
    ['precharge-resistance-min-current', { voltage: 600, current: 0.6, sourceResistance: 10, tolerance: 0.1 }, 1100],
    ['precharge-resistance-min-energy', { voltage: 600, time: 2, energy: 720 }, 1000],
    ['discharge-resistance-min-power', { voltage: 600, ratedPower: 360 }, 1000],
    ['discharge-power-rating-min', { voltage: 600, dischargeResistance: 1000 }, 360],
    ['second-contact-inrush-max', { voltage: 600, threshold: 0.95, sourceResistance: 0.1 }, 300],
    // A short of the points: 2, 4 and 6 W in 5, 10 and 15 kΩ at 200, 400 and 600 V, the rulebooks’ table.
    ['measuring-point-resistance', { voltage: 200, ratedPower: 2 }, 5000],
    ['measuring-point-resistance', { voltage: 400, ratedPower: 4 }, 10_000],
    ['measuring-point-resistance', { voltage: 600, ratedPower: 6 }, 15_000],
  ])('%s %j', (name, scalars, expected) => {
    expect(nine(compute(name, scalars))).toBe(nine(expected));
  });

  it('no setting is above the whole voltage', () => {
    expect(compute('precharge-threshold-setting-min', { threshold: 0.95, tolerance: 0.05 })).toBe(1);
    expect(compute('precharge-threshold-setting-min', { threshold: 0.95, tolerance: 0.06 })).toBeNull();
  });

  it('rises of 1 kΩ into 500 µF to 90 and 95 % take 1.1513 and 1.4979 s', () => {
    for (const [threshold, time] of [
      [0.9, 1.1513],
      [0.95, 1.4979],
    ] as const) {
      expect(compute('precharge-resistance-max-time', { capacitance: 500e-6, time, threshold })).toBeCloseTo(1000, 0);
      expect(
        (compute('link-capacitance-max-precharge', { prechargeResistance: 1000, time, threshold }) ?? 0) * 1e6,
      ).toBeCloseTo(500, 1);
    }
  });

  // OpenStax, College Physics 2e, section 21.6: 100 pF through 75.0 MΩ is at 90.0 % after 17.3 ms, to three digits.
  it('100 pF to 90.0 % in 17.3 ms asks for 75.0 MΩ', () => {
    const found =
      compute('precharge-resistance-max-time', { capacitance: 100e-12, time: 17.3e-3, threshold: 0.9 }) ?? 0;
    expect(Math.abs(found / 75e6 - 1)).toBeLessThan(2e-3);
  });

  // The same section: 8.00 µF through 1.00 kΩ falls from 10.0 kV to 498 V in 24 ms.
  it('8.00 µF from 10.0 kV to 498 V in 24 ms asks for 1.00 kΩ', () => {
    const fall = { voltage: 10_000, limitVoltage: 498, time: 24e-3 };
    expect(
      Math.abs((compute('discharge-resistance-max-time', { ...fall, capacitance: 8e-6 }) ?? 0) / 1000 - 1),
    ).toBeLessThan(2e-3);
    expect(
      Math.abs((compute('link-capacitance-max-discharge', { ...fall, dischargeResistance: 1000 }) ?? 0) / 8e-6 - 1),
    ).toBeLessThan(2e-3);
  });

  it('a load makes the rise slower: the bound solves s·(1 − e^(−t/τ)) = p', () => {
    const [load, capacitance, time, threshold] = [47_000, 500e-6, 2, 0.95];
    const found =
      compute('precharge-resistance-max-time', { loadResistance: [load], capacitance, time, threshold }) ?? 0;
    const share = load / (found + load);
    expect(share * -Math.expm1(-time / (capacitance * found * share))).toBeCloseTo(threshold, 10);
    const back = compute('link-capacitance-max-precharge', {
      loadResistance: [load],
      prechargeResistance: found,
      time,
      threshold,
    });
    expect((back ?? 0) * 1e6).toBeCloseTo(500, 6);
  });

  it('an answer is null where there is none', () => {
    // Never reached: 1 kΩ into 9 kΩ settles at exactly 90 %.
    expect(
      compute('link-capacitance-max-precharge', {
        prechargeResistance: 1000,
        loadResistance: [9000],
        time: 1,
        threshold: 0.9,
      }),
    ).toBe(null);
    // Already below: nothing has to fall.
    expect(
      compute('discharge-resistance-max-time', { capacitance: 1e-3, voltage: 48, limitVoltage: 60, time: 5 }),
    ).toBe(null);
    expect(compute('precharge-resistance-max-loads', { loadResistance: [], threshold: 0.95 })).toBe(null);
    expect(compute('precharge-resistance-min-current', { voltage: 10, current: 5, sourceResistance: 3 })).toBe(null);
  });

  const nothing = 'no-value-helps';
  const everything = 'no-value-hurts';
  it.each<[string, Scalars, string | undefined]>([
    // All of the voltage behind a divider, or none of it.
    ['precharge-resistance-max-loads', { loadResistance: [47_000], threshold: 1 }, nothing],
    ['precharge-resistance-max-loads', { loadResistance: [47_000], threshold: 0 }, everything],
    ['precharge-load-resistance-min', { prechargeResistance: 1000, threshold: 1 }, nothing],
    ['precharge-load-resistance-min', { prechargeResistance: 1000, threshold: 0 }, everything],
    // No time, and nowhere to rise to.
    ['precharge-resistance-max-time', { capacitance: 1e-3, time: 0, threshold: 0.9 }, nothing],
    ['precharge-resistance-max-time', { capacitance: 1e-3, time: 5, threshold: 0, loadResistance: [1000] }, everything],
    // 1 kΩ into 1 kΩ settles at half.
    [
      'link-capacitance-max-precharge',
      { prechargeResistance: 1000, loadResistance: [1000], time: 5, threshold: 0.9 },
      nothing,
    ],
    // 10 kΩ draw 57 mA at 95 % of 600 V, and 1.5 kΩ give 20 mA then.
    [
      'constant-power-load-max',
      { voltage: 600, prechargeResistance: 1500, threshold: 0.95, loadResistance: [10_000] },
      nothing,
    ],
    // 600 V over 500 Ω are 1.2 A already.
    ['precharge-resistance-min-current', { voltage: 600, current: 2, sourceResistance: 500 }, everything],
    ['precharge-resistance-min-current', { voltage: 600, current: 0 }, nothing],
    ['precharge-resistance-min-energy', { voltage: 600, time: 2, energy: 0 }, nothing],
    ['precharge-resistance-min-energy', { voltage: 600, time: 0, energy: 0 }, undefined],
    ['precharge-threshold-setting-min', { threshold: 0.95, tolerance: 0.06 }, nothing],
    // Below the limit from the start, and no time to fall.
    ['discharge-resistance-max-time', { capacitance: 1e-3, voltage: 48, limitVoltage: 60, time: 0 }, everything],
    ['discharge-resistance-max-time', { capacitance: 1e-3, voltage: 600, limitVoltage: 60, time: 0 }, nothing],
    [
      'link-capacitance-max-discharge',
      { dischargeResistance: 1e3, voltage: 60, limitVoltage: 60, time: 5 },
      everything,
    ],
    ['discharge-resistance-min-power', { voltage: 600, ratedPower: 0 }, nothing],
    // Not a bound but a current.
    ['second-contact-inrush-max', { voltage: 600, threshold: 0.95, sourceResistance: 0 }, undefined],
  ])('%s of %j has none: %s', (name, scalars, outcome) => {
    expect(compute(name, scalars)).toBeNull();
    const why = limits.find(({ meta }) => meta.name === name)?.fromScalars.withoutBound(scalars);
    expect(why?.outcome).toBe(outcome);
    expect(why?.note).toMatch(/^[A-Z].*\.$/);
  });

  it('a rise into a load far below the resistance that fills the link without it still has its bound', () => {
    // Without the load 5 s fill 1 pF through 2.2·10¹² Ω; a load of 1 µΩ at 90 % leaves a ninth of it.
    const scalars = { capacitance: 1e-12, time: 5, threshold: 0.9, loadResistance: [1e-6] };
    expect((compute('precharge-resistance-max-time', scalars) ?? 0) * 9e6).toBeCloseTo(1, 9);
  });

  it.each(limits.map(({ meta, fromScalars }) => [meta.name, fromScalars] as const))(
    '%s answers null without each scalar that it needs',
    (_, form) => {
      const all: Scalars = {
        prechargeResistance: 1000,
        loadResistance: [47_000],
        threshold: 0.9,
        voltage: 400,
        capacitance: 1e-4,
        time: 3,
        limitVoltage: 60,
        dischargeResistance: 2000,
        power: 10,
        current: 1,
        energy: 100,
        ratedPower: 50,
        sourceResistance: 0.1,
        tolerance: 0,
      };
      expect(form.compute(all)).toBeGreaterThan(0);
      for (const name of form.required) expect(form.compute({ ...all, [name]: undefined })).toBe(null);
    },
  );
});
