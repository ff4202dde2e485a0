import { expect, it } from 'vitest';
import { CircuitFault } from '../../../src/circuit/fault.js';
import { refuseCostly } from '../../../src/verify/work/refuse-costly.js';
import { workCapacities } from '../../../src/verify/work/work-capacities.js';

const { expectedWork: most } = workCapacities;

it('lets in what is expected to be as much work as is allowed, and asks nobody why', () => {
  const costly = () => expect.fail('nobody needs to know');
  expect(() => refuseCostly({ pointer: '#/circuit', work: most, costly })).not.toThrow();
});

it('refuses more, and says where, how much, how much is allowed and what would be cheaper', () => {
  const costly = () => ['There are 12 pumps: state fewer.', 'There is a moat.'];
  let fault: unknown;
  try {
    refuseCostly({ pointer: '#/after', work: 2_345_678, costly });
  } catch (error) {
    fault = error;
  }
  expect(fault).toBeInstanceOf(CircuitFault);
  const [{ detail, ...others }] = (fault as CircuitFault).faults as [CircuitFault['faults'][number]];
  expect(others).toEqual({
    pointer: '#/after',
    code: 'too-costly',
    accepted: `an expected work of at most ${most}`,
  });
  // An estimate is not told to more digits than it has, and upwards: what is refused is never said to be what is allowed.
  expect(detail).toMatch(new RegExp(`about 2400000, an estimate .* allowed is ${most}\\. There are 12 .* moat\\.$`));
});
