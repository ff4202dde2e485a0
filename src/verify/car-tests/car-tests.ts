import type { Facts } from '../../facts/facts.js';
import { lazily } from '../../facts/lazily.js';
import { notComputable } from '../../facts/figures/not-computable.js';
import type { Ruleset } from '../../rules/ruleset.js';
import type { CarTest } from './car-test-schema.js';
import { cutOffTest } from './cut-off-test.js';
import { deadLinkTests } from './dead-link-tests.js';
import { residualVoltageTests } from './residual-voltage-tests.js';
import { riseTime } from './rise-time.js';
import { riseTimeTest } from './rise-time-test.js';

/**
 * What to measure on the real car to see that it is the one on paper: first dead, then started with the link cut off, then
 * started, then shut down. A test that the description does not suffice for is left out.
 */
export function carTests(facts: Facts, ruleset: Ruleset): CarTest[] {
  const rise = lazily(() => riseTime(facts));
  return [deadLinkTests, cutOffTest, riseTimeTest, residualVoltageTests].flatMap((tests) => {
    try {
      return tests(facts, ruleset, rise);
    } catch (error) {
      if (notComputable(facts.circuit, error) === undefined) throw error;
      return [];
    }
  });
}
