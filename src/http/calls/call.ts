import type { Cost } from '../../verify/work/refuse-costly.js';

/** A request that has been read: what it is expected to cost, and how it is answered. */
export interface Question extends Cost {
  /**
   * The answer as it is sent.
   * @param type media type, one of those that the call's route produces
   * @throws CircuitFault where the circuit cannot be computed
   */
  readonly answer: (type: string) => string;
}

/**
 * A call whose work may be large: its body as the question it stands for. All data in and text out, so that any thread gives
 * the same answer.
 * @throws HttpProblem (422) with every fault
 */
export type Call = (body: unknown) => Question;
