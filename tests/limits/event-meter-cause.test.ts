import { describe, expect, it } from 'vitest';
import { limitOf, type PlainCar, q } from './plain-car.js';

/** The plain car, 1 kΩ into a load at 95 %: the load must stay above 19 kΩ, all in parallel (the divider, textbook). */
const record = (load: number, meter?: number) => {
  const car: PlainCar = {
    parts: { 'rise-load': { resistance: q(load) } },
    ...(meter === undefined ? {} : { conditions: { eventMeterResistance: meter } }),
  };
  return limitOf(car, 'precharge-load-resistance-min', 'rise-load');
};

describe('the smallest resistance of a load beside the event’s meter', () => {
  it('names a meter that leaves nothing for any load', () => {
    expect(record(47_000, 15_000)).toMatchObject({
      outcome: 'no-value-helps',
      satisfied: false,
      note: 'No value of this part alone can satisfy it, the other parts at their worst. The cause is the event’s energy meter of 15 kΩ: without it this part satisfies it as it is.',
    });
  });

  it('names a meter that leaves too little for this load', () => {
    // 47 kΩ ∥ 30 kΩ = 18.3 kΩ < 19 kΩ; beside 47 kΩ a load must have 31.9 kΩ.
    const limit = record(30_000, 47_000);
    expect(limit).toMatchObject({ outcome: 'bound', satisfied: false });
    expect(limit.value).toBeCloseTo(1 / (1 / 19_000 - 1 / 47_000), 3);
    expect(limit.note).toBe(
      'The cause is the event’s energy meter of 47 kΩ: without it this part satisfies it as it is.',
    );
  });

  it('says that another value could do without the meter where this one would not', () => {
    expect(record(10_000, 15_000).note).toMatch(/15 kΩ: without it this part could satisfy it\.$/);
  });

  it('names no meter where the load is too small beside it and alone, where all is well, or where there is no event', () => {
    expect(record(10_000, 47_000)).toMatchObject({ outcome: 'bound', satisfied: false });
    expect(record(10_000, 47_000).note).toBeUndefined();
    expect(record(47_000, 47_000)).toMatchObject({ satisfied: true });
    expect(record(47_000, 47_000).note).toBeUndefined();
    expect(record(10_000).note).toBeUndefined();
  });
});
