/** One thing wrong with a request: where, what, and what would be accepted. */
export interface Fault {
  /** JSON pointer as a URI fragment (RFC 6901 section 6): `#/circuit/elements/3/resistance`. */
  readonly pointer: string;
  /** A plain sentence that ends with a full stop. */
  readonly detail: string;
  /** A stable code from the table of fault codes. */
  readonly code: string;
  /** The accepted form, where it helps. */
  readonly accepted?: string;
}

/** A computation refused for a fault of the circuit that only shows once contacts move (an ideal loop, say). */
export class CircuitFault extends Error {
  override readonly name = 'CircuitFault';
  constructor(readonly faults: readonly Fault[]) {
    super(faults.map((fault) => fault.detail).join(' '));
  }
}
