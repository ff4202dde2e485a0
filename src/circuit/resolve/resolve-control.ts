import type { PrechargeControl, ResolvedCircuit } from '../model.js';
import type { CircuitInput } from '../schema/circuit.js';
import { nodePairOf } from './element-fields.js';
import { resolveSequence } from './resolve-sequence.js';
import { stated } from './stated.js';
import { withoutUndefined } from './without-undefined.js';

type ControlInput = NonNullable<CircuitInput['control']>;
type PrechargeInput = NonNullable<ControlInput['precharge']>;

/** The control in SI; an empty one where none is stated. */
export function resolveControl(input: ControlInput | undefined): ResolvedCircuit['control'] {
  return withoutUndefined({
    sequence: input?.sequence === undefined ? undefined : resolveSequence(input.sequence),
    precharge: input?.precharge === undefined ? undefined : resolvePrecharge(input.precharge),
  });
}

function resolvePrecharge(input: PrechargeInput): PrechargeControl {
  return withoutUndefined({
    method: input.method,
    threshold: stated(input.threshold, 'fraction'),
    comparisonError: stated(input.comparisonError, 'fraction'),
    reference: input.reference,
    fixedVoltage: stated(input.fixedVoltage, 'positiveVoltage'),
    accumulatorSense: input.accumulatorSense === undefined ? undefined : nodePairOf(input.accumulatorSense),
    linkSense: input.linkSense === undefined ? undefined : nodePairOf(input.linkSense),
    delay: stated(input.delay, 'time'),
    timeout: stated(input.timeout, 'time'),
    attempts: input.attempts,
    retryInterval: stated(input.retryInterval, 'time'),
    minimumRestartInterval: stated(input.minimumRestartInterval, 'time'),
  });
}
