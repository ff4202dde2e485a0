import { describe, expect, it } from 'vitest';
import { createFacts } from '../../src/facts/create-facts.js';
import { computeLimits } from '../../src/limits/compute-limits.js';
import { formatQuantity } from '../../src/rules/format-quantity.js';
import { judge } from '../../src/rules/engine.js';
import { rulesetById } from '../../src/rules/ruleset-by-id.js';
import { about, exact, soundCircuit } from './sound-car.js';

const book = rulesetById('student-ev-2020')!;

/** The sound car with 47 kΩ on the link, and so many ohms in its accumulator and its pre-charge resistor. */
function judged(accumulator: number, resistor: number) {
  const circuit = soundCircuit({
    acc: { resistance: about(accumulator, 0.1) },
    'r-pre': { resistance: about(resistor, 0.05) },
    meter: { resistance: exact(47_000) },
  });
  const all = judge(createFacts(circuit, book.conditions), book);
  const { limits } = computeLimits(createFacts(circuit, book.conditions));
  const of = (rule: string) => all.find((each) => each.rule === rule)!;
  return {
    level: of('precharge-reaches-threshold'),
    setting: of('precharge-reaches-setting'),
    most: limits.find(({ name }) => name === 'precharge-resistance-max-loads')!,
    mostForSetting: limits.find(({ name }) => name === 'precharge-resistance-max-setting')!,
  };
}

/** Ω; `82 Ω` or `1.2 kΩ` ahead of what is said of a margin. */
function advised(remedy = ''): number | undefined {
  const [, number, prefix] = /([\d.]+) (k?)Ω leaves a margin of at least 20 %/.exec(remedy) ?? [];
  return number === undefined ? undefined : Number(number) * (prefix === 'k' ? 1000 : 1);
}

describe('remedies and limits on the pre-charge resistor say the same', () => {
  // 47 000/19 = 2474 Ω in all for the level, 47 000/39 = 1205 Ω for 97.5 %: one accumulator leaves both, one the first, one none.
  it.each([0, 400, 800, 1000, 1200, 1600, 2000, 2400, 3000])('behind an accumulator of %d Ω', (accumulator) => {
    const { level, setting, most, mostForSetting } = judged(accumulator, 3300);
    expect([level.status, setting.status]).toEqual(['violated', 'violated']);

    expect(level.remedy!.includes('no pre-charge resistance alone')).toBe(most.outcome === 'no-value-helps');
    expect(level.remedy!.includes('no resistance alone reaches the threshold as set')).toBe(
      most.outcome === 'bound' && mostForSetting.outcome === 'no-value-helps',
    );
    expect(setting.remedy!.includes('no pre-charge resistance alone')).toBe(
      mostForSetting.outcome === 'no-value-helps',
    );
    if (most.nominal !== null) expect(level.remedy).toContain(`below ${formatQuantity(most.nominal, 'Ω')};`);
    if (mostForSetting.nominal !== null) {
      expect(setting.remedy).toContain(`below ${formatQuantity(mostForSetting.nominal, 'Ω')} (`);
    }
  });

  it.each([0, 400, 800, 1000])(
    'and the value advised behind %d Ω keeps a fifth to both bounds and cures both',
    (accumulator) => {
      const { level, setting, most, mostForSetting } = judged(accumulator, 3300);
      const value = advised(level.remedy)!;
      expect(value).toBeLessThanOrEqual(0.8 * Math.min(most.nominal!, mostForSetting.nominal!));
      expect(advised(setting.remedy)).toBe(value);
      const cured = judged(accumulator, value);
      expect([cured.level.status, cured.setting.status]).toEqual(['met', 'met']);
    },
  );

  it('and where the threshold as set is out of reach the value advised cures the rule that it is for', () => {
    const { level, most } = judged(1600, 3300);
    const value = advised(level.remedy)!;
    expect(value).toBeLessThanOrEqual(0.8 * most.nominal!);
    const cured = judged(1600, value);
    expect([cured.level.status, cured.setting.status]).toEqual(['met', 'violated']);
  });
});
